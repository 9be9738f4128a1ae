import { ANEW } from "../worker/messages";
import { type FileParts, PROGRAM } from "../worker/one_file";

/** Whether everything is in one file, opened without a server. Filled in by the site build. */
declare const IN_ONE_FILE: boolean;
export const inOneFile = IN_ONE_FILE;

/** Where the page's other programs lie, by name: the hash of the content is in the name of the file. */
declare const PROGRAMS: Readonly<Record<string, string>>;

/** The address of one of the page's programs. */
export function programAt(name: string): string {
  return new URL(PROGRAMS[name] ?? name, document.baseURI).href;
}

let name = "";

/**
 * What did not start may be a wrong answer, remembered under a name that is otherwise good for ever: next time everything
 * is asked for anew.
 */
export function distrust(): void {
  if (inOneFile) return;
  name = ANEW;
  void fetch(programAt("worker.js"), { cache: "reload" }).catch(() => undefined);
}

/** Start the core's worker; what it needs comes from beside the page, or lies in it. */
export function openWorker(): Worker {
  return inOneFile ? openFromFile() : new Worker(programAt("worker.js"), { type: "module", name });
}

/** The parts stand in the page as texts that it does not run, each under its name. */
function openFromFile(): Worker {
  const parts: FileParts = Object.fromEntries(
    [...document.querySelectorAll<HTMLElement>("script[data-part]")].map((part) => [part.dataset["part"], part.textContent ?? ""]),
  );
  const program = PROGRAM.map((name) => `${parts[name] ?? ""}\n`);
  const worker = new Worker(URL.createObjectURL(new Blob(program, { type: "text/javascript" })));
  worker.postMessage(parts);
  return worker;
}
