/** Has a snapshot of the started Python made on this device, for later starts, once the page has long been left alone. */
import { MAKER } from "../worker/snapshot";
import type { FromWorker } from "../worker/messages";
import { inOneFile, programAt } from "./open_worker";

/** So long nothing may have been asked [ms]. */
const QUIET = 10_000;
/** So long the making may take [ms]. */
const LIMIT = 120_000;

let wanted = false;
let due: ReturnType<typeof setTimeout> | undefined;

/** The page's own worker started without one: from now on the next quiet moment is for making it. */
export function watchForQuiet(): void {
  wanted = !inOneFile;
  quietAgain();
}

/** Something was asked: the quiet begins anew. */
export function quietAgain(): void {
  clearTimeout(due);
  if (wanted) due = setTimeout(makeOne, QUIET);
}

/** Only where everything lies on this device already, so that nothing is fetched for it. */
function canBeKept(): boolean {
  try {
    return Boolean(navigator.serviceWorker?.controller) && "caches" in self && "locks" in navigator;
  } catch {
    return false;
  }
}

function makeOne(): void {
  if (document.hidden || !canBeKept()) return quietAgain();
  wanted = false;
  try {
    const worker = new Worker(programAt("worker.js"), { type: "module", name: MAKER });
    const end = (): void => {
      clearTimeout(limit);
      worker.terminate();
    };
    const limit = setTimeout(end, LIMIT);
    // Kept or not: there is nothing to tell anyone.
    worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
      if (data.kind !== "loading") end();
    };
    worker.onerror = end;
  } catch {
    // The next start is a plain one again.
  }
}
