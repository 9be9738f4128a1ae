import { computed, signal } from "@preact/signals";
import type { Pair, Step } from "../contract";
import { jobNumber } from "../view/place";

/** How far the steps of one job are done. A tick holds the words that were ticked: with other numbers it is none. */
interface Run {
  readonly of: number;
  readonly at: string;
  readonly done: Readonly<Record<string, string>>;
}

const STORED = "conewright-steps";
const MOST_RUNS = 12;

function read(): readonly Run[] {
  try {
    const raw = JSON.parse(localStorage.getItem(STORED) ?? "null") as { format?: number; runs?: unknown } | null;
    if (raw?.format !== 1 || !Array.isArray(raw.runs)) return [];
    return raw.runs.filter((run): run is Run => typeof run?.of === "number" && typeof run.done === "object" && run.done !== null);
  } catch {
    return [];
  }
}

const runs = signal<readonly Run[]>(read());
const run = computed<Run>(() => runs.value.find(({ of }) => of === jobNumber.value) ?? { of: jobNumber.value, at: "", done: {} });

function put(next: Run): void {
  // Another page of ours may have ticked its own job meanwhile.
  const others = read().filter(({ of }) => of !== next.of);
  runs.value = [next, ...others].slice(0, MOST_RUNS);
  try {
    localStorage.setItem(STORED, JSON.stringify({ format: 1, runs: runs.value }));
  } catch {
    // Without storage the ticks last as long as the page.
  }
}

const said = (text: Pair) => `${text.mm}\n${text.inch}`;

export type Mark = "open" | "done" | "changed";

/** Whether a step is ticked, or was ticked while it said something else. */
export function markOf(step: Step): Mark {
  const text = run.value.done[step.id];
  if (text === undefined) return "open";
  return text === said(step.text) ? "done" : "changed";
}

export function tick(step: Step, done: boolean): void {
  const { [step.id]: _before, ...others } = run.value.done;
  put({ ...run.value, at: step.id, done: done ? { ...others, [step.id]: said(step.text) } : others });
  navigator.vibrate?.(done ? 15 : 5);
}

/** The step that was in hand last. */
export const atStep = computed(() => run.value.at);

export function stand(id: string): void {
  if (run.value.at !== id) put({ ...run.value, at: id });
}

/** Whether any step of this job is ticked. */
export const anyDone = computed(() => Object.keys(run.value.done).length > 0);

/** Ticks that fall because these steps are to be done once more, the first of them in hand; and how to have them back. */
export function untick(ids: readonly string[]): () => void {
  const before = run.value;
  const done = Object.fromEntries(Object.entries(before.done).filter(([id]) => !ids.includes(id)));
  put({ ...before, at: ids[0] ?? before.at, done });
  return () => put(before);
}

export function startOver(): () => void {
  const before = run.value;
  put({ of: before.of, at: "", done: {} });
  return () => put(before);
}

/** Ticks made in another tab of the same job show here too. */
export function followMarks(): void {
  addEventListener("storage", (event: StorageEvent) => event.key === STORED && (runs.value = read()));
}
