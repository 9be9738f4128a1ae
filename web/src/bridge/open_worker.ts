import type { FileParts } from "../worker/one_file";

/** Whether everything is in one file, opened without a server. Filled in by the site build. */
declare const IN_ONE_FILE: boolean;
export const inOneFile = IN_ONE_FILE;

/** Start the core's worker; what it needs comes from beside the page, or lies in it. */
export function openWorker(): Worker {
  return inOneFile ? openFromFile() : new Worker("worker.js", { type: "module" });
}

/** The parts stand in the page as texts that it does not run, each under its name. */
function openFromFile(): Worker {
  const parts: FileParts = Object.fromEntries(
    [...document.querySelectorAll<HTMLElement>("script[data-part]")].map((part) => [part.dataset["part"], part.textContent ?? ""]),
  );
  const boot = new Blob([parts["boot.js"] ?? ""], { type: "text/javascript" });
  const worker = new Worker(URL.createObjectURL(boot));
  worker.postMessage(parts);
  return worker;
}
