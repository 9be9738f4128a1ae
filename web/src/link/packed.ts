/** A link in fewer letters: deflated, after "z=". What cannot be unpacked is opened as it stands, and says so. */

const MARK = "z=";
/** Unpacked text longer than this is no job: a small link must not grow without end. */
const MOST = 300_000;

function toText(bytes: Uint8Array): string {
  const letters = Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");
  return btoa(letters).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

function toBytes(text: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
}

async function through(bytes: Uint8Array<ArrayBuffer>, change: ReadableWritablePair<Uint8Array, BufferSource>): Promise<Uint8Array<ArrayBuffer>> {
  const reader = new Blob([bytes]).stream().pipeThrough(change).getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (let next = await reader.read(); !next.done; next = await reader.read()) {
    size += next.value.length;
    if (size > MOST) throw new Error("too long");
    parts.push(next.value);
  }
  const whole = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** The text after "#" in the fewer letters of the two. */
export async function pack(hash: string): Promise<string> {
  try {
    const packed = MARK + toText(await through(new TextEncoder().encode(hash), new CompressionStream("deflate-raw")));
    return packed.length < hash.length ? packed : hash;
  } catch {
    return hash;
  }
}

export function isPacked(hash: string): boolean {
  return hash.replace(/^#/, "").startsWith(MARK);
}

/** The readable text after "#" of any address; one that cannot be unpacked comes back as it is. */
export async function unpack(hash: string): Promise<string> {
  if (!isPacked(hash)) return hash;
  try {
    const bytes = toBytes(hash.replace(/^#/, "").slice(MARK.length));
    return new TextDecoder().decode(await through(bytes, new DecompressionStream("deflate-raw")));
  } catch {
    return hash;
  }
}
