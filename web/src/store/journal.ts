/**
 * What was typed in the last moment, written before the next thing can happen. The address and the larger store follow a
 * moment later; a page that goes before that finds its work here.
 */
import type { LastJob } from "./last_job";

const NEWEST = "conewright.journal";
const HERE = "conewright.here";

/** The job of this tab, and the addresses that it has grown out of. */
interface Here {
  readonly from: readonly string[];
  /** Those before, for a page that was asked for before it and came after. */
  readonly earlier: readonly string[];
  readonly id: string;
  readonly hash: string;
  /** When it was noted [ms]; 0 where an earlier version noted it. */
  readonly at: number;
}

function read(store: () => Storage, key: string): Record<string, unknown> | null {
  try {
    const raw: unknown = JSON.parse(store().getItem(key) ?? "null");
    return typeof raw === "object" ? (raw as Record<string, unknown> | null) : null;
  } catch {
    return null;
  }
}

function write(store: () => Storage, key: string, value: unknown): void {
  try {
    store().setItem(key, JSON.stringify(value));
  } catch {
    // Blocked or full: the address follows in a moment all the same.
  }
}

/** Note the job as it stands; `newest` unless it is not worth finding again. */
export function note(job: LastJob, from: readonly string[], earlier: readonly string[], worthIt: boolean): void {
  write(() => sessionStorage, HERE, { from, earlier, id: job.id, hash: job.hash, at: job.at } satisfies Here);
  if (worthIt) write(() => localStorage, NEWEST, job);
}

/** Whether the page was loaded anew, by hand or by the browser, rather than opened from somewhere. */
function loadedAnew(): boolean {
  const [loading] = performance.getEntriesByType("navigation") as PerformanceNavigationTiming[];
  return loading?.type === "reload";
}

/**
 * The job that this tab had when it stood at this address; null where it had none. Until a page that is loaded anew comes, the
 * old one goes on, and its address with it; but the browser loads the address of the moment in which it was asked.
 */
export function notedHere(address: string): Omit<Here, "from" | "earlier"> | null {
  const here = read(() => sessionStorage, HERE);
  if (typeof here?.["id"] !== "string" || typeof here["hash"] !== "string" || !Array.isArray(here["from"])) return null;
  const earlier: unknown = loadedAnew() ? here["earlier"] : [];
  if (!here["from"].includes(address) && !(Array.isArray(earlier) && earlier.includes(address))) return null;
  return { id: here["id"], hash: here["hash"], at: typeof here["at"] === "number" ? here["at"] : 0 };
}

/** The job changed last in any tab, or null. */
export function journalled(): LastJob | null {
  const { id, hash, title, at } = read(() => localStorage, NEWEST) ?? {};
  if (typeof id !== "string" || typeof hash !== "string" || typeof at !== "number") return null;
  return { id, hash, title: typeof title === "string" ? title : "", at };
}
