/** One file of the build, as the site build lists it. */
export interface BuildFile {
  readonly url: string;
  /** Changes with the content; the file is stored under it. */
  readonly revision: string;
  /** "sha256-" and the hash of the content, as for a script's integrity. */
  readonly integrity: string;
  /** Where the list of its parts lies, of a file that an older build's can be made into. */
  readonly parts?: string;
}

/** A slow line is waited for as long as it brings anything; after so long a silence it is given up [ms]. */
const SILENCE = 30_000;

/**
 * The file from the server, whole and just as it was built, or a failure. Servers answer with other things: a network's
 * sign-in page, a fault page, the half of a file that was being copied. None of them has the hash.
 */
export async function fetchWhole(file: BuildFile): Promise<Response> {
  let fault: unknown;
  // First what the page has just fetched, if the server says it has not changed; then, if that was wrong, all anew.
  for (const cache of ["no-cache", "reload"] as const) {
    try {
      return await fetchOnce(file, cache);
    } catch (error) {
      fault = error;
    }
  }
  throw fault;
}

async function fetchOnce(file: BuildFile, cache: RequestCache): Promise<Response> {
  const { content, headers } = await readAll(new URL(file.url, self.location.href), cache);
  if ((await integrityOf(content)) !== file.integrity) throw new Error(`${file.url} is not what was built`);
  return new Response(content, { headers });
}

/** All that a server answers with, however slowly; a failure where it is not this file, or falls silent. */
export async function readAll(address: URL, cache: RequestCache): Promise<{ content: Blob; headers: Headers }> {
  const stop = new AbortController();
  let silent = setTimeout(() => stop.abort(), SILENCE);
  try {
    const response = await fetch(address, { cache, credentials: "same-origin", signal: stop.signal });
    if (!response.ok || !response.body) throw new Error(`${address.pathname} could not be fetched (${response.status})`);
    const parts: Uint8Array<ArrayBuffer>[] = [];
    const reader = response.body.getReader();
    for (let read = await reader.read(); !read.done; read = await reader.read()) {
      parts.push(read.value);
      clearTimeout(silent);
      silent = setTimeout(() => stop.abort(), SILENCE);
    }
    // Anew, without the marks of how it came: a browser takes no answer for a page that came by another address.
    const headers = new Headers(response.headers);
    for (const name of ["Content-Encoding", "Content-Length"]) headers.delete(name);
    return { content: new Blob(parts), headers };
  } finally {
    clearTimeout(silent);
  }
}

/** The hash of a content as the site build lists it. */
export async function integrityOf(content: Blob): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", await content.arrayBuffer()));
  return `sha256-${btoa(String.fromCharCode(...hash))}`;
}
