/** The screen before the core: what this very build answered last to this very request, until it answers it again. */
import { effect } from "@preact/signals";
import type { Sheet } from "../contract";
import { keepSheet, keptSheet } from "../store/sheets";
import { answer } from "./answer";
import { type Job, job } from "./job";
import { readSheet, requestText } from "./request";

/** The core that this page was built with. Filled in by the site build. */
declare const CORE_INTEGRITY: string;

/** A sheet is kept once nothing has changed for so long [ms]. */
const QUIET = 1500;

/** The request, however its entries came to stand. */
function askedBy(of: Job): string {
  const entries = Object.entries(of.entries).sort(([one], [other]) => (one < other ? -1 : 1));
  return requestText({ ...of, entries: Object.fromEntries(entries) });
}

/** Show the last sheet of the job in hand where there is one, marked as not checked. */
export async function showLastSheet(): Promise<void> {
  const of = job.peek();
  const text = await keptSheet(CORE_INTEGRITY, askedBy(of));
  if (!text || job.peek() !== of || answer.peek()) return;
  try {
    const sheet: Sheet = readSheet(JSON.parse(text));
    answer.value = { sheet, of, whole: false, unchecked: true };
  } catch {
    // The core will tell.
  }
}

/** Keep the sheet of the job in hand for the next start. */
export function followSheets(): void {
  let due: ReturnType<typeof setTimeout> | undefined;
  let kept: Sheet | null = null;
  effect(() => {
    const latest = answer.value;
    clearTimeout(due);
    if (!latest?.whole || latest.of !== job.value || latest.sheet === kept) return;
    due = setTimeout(() => {
      kept = latest.sheet;
      void keepSheet(CORE_INTEGRITY, askedBy(latest.of), JSON.stringify(latest.sheet));
    }, QUIET);
  });
}
