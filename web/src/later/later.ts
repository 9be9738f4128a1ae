import { computed, signal } from "@preact/signals";
import type { Figure, Problem, Row } from "../contract";
import { answer, askAside } from "../job/answer";
import { job } from "../job/job";
import { readLater, requestText } from "../job/request";

/** Rows asked for at a time: few, because an entry typed meanwhile waits for no more than these. */
const MOST = 5;
/** Where they took longer than this [ms], fewer are asked for next: a phone is slower than a bench. */
const LONG = 400;

export type End = "running" | "stopped" | "done" | "failed";

/** A table's rows as far as they are worked out, and the very request that they answer. */
export interface Run {
  readonly of: string;
  readonly keys: readonly string[];
  readonly columns: readonly string[];
  readonly rows: readonly Row[];
  readonly problems: readonly Problem[];
  /** Keys asked for so far; one that the core does not know brings no row. */
  readonly asked: number;
  readonly end: End;
}

const runs = signal<Readonly<Record<string, Run>>>({});
const present = computed(() => requestText(job.value));

export function runOf(id: string): Run | undefined {
  return runs.value[id];
}

/** Whether these rows are of the job as it stands. */
export function isOfNow(run: Run): boolean {
  return run.of === present.value;
}

function put(id: string, run: Run): Run {
  runs.value = { ...runs.value, [id]: run };
  return run;
}

export function stopWork(id: string): void {
  const run = runs.value[id];
  if (run?.end === "running") put(id, { ...run, end: "stopped" });
}

/** Work the table's rows out some at a time, from where it was stopped if the job is still the same. */
export async function workOut(figure: Figure): Promise<void> {
  const of = answer.value?.of;
  const { id, later = [], table } = figure;
  const before = runs.value[id];
  if (!of || (before?.end === "running" && isOfNow(before))) return;
  const fresh = { of: requestText(of), keys: later, columns: table?.columns ?? [], rows: [], problems: [], asked: 0 };
  const again = before && before.end !== "done" && before.of === fresh.of ? before : fresh;
  let run = put(id, { ...again, end: "running" });
  let size = MOST;
  while (run.asked < run.keys.length) {
    const items = run.keys.slice(run.asked, run.asked + size);
    const begun = performance.now();
    try {
      const { rows, problems } = readLater(await askAside(of, { later: { figure: id, items } }));
      size = performance.now() - begun > LONG ? Math.ceil(size / 2) : Math.min(MOST, size + 1);
      // Stopped meanwhile, or begun anew: these rows are not wanted any more.
      if (runs.value[id] !== run) return;
      if (!isOfNow(run)) return stopWork(id);
      run = put(id, {
        ...run,
        rows: [...run.rows, ...rows],
        problems: [...run.problems, ...problems],
        asked: run.asked + items.length,
      });
    } catch {
      if (runs.value[id] === run) put(id, { ...run, end: "failed" });
      return;
    }
  }
  put(id, { ...run, end: "done" });
}
