import { computed, effect, signal } from "@preact/signals";
import { jobNumber } from "../view/place";
import { type Job, job } from "./job";

/** So many steps back. */
const MOST = 100;
/** Changes closer together than this are one step: a word, not a letter [ms]. */
const TOGETHER = 1500;

const before = signal<readonly Job[]>([]);
const after = signal<readonly Job[]>([]);
let known: Job | null = null;
let of = 0;
let last = 0;
let field = "";

export const undoable = computed(() => before.value.length > 0);
export const redoable = computed(() => after.value.length > 0);

/** The entry in which two states of a job differ; several count as one of their own. */
function changed(one: Job, other: Job): string {
  const ids = new Set([...Object.keys(one.entries), ...Object.keys(other.entries)]);
  const differing = [...ids].filter((id) => one.entries[id] !== other.entries[id]);
  return one.drawer === other.drawer && differing.length === 1 ? (differing[0] ?? "") : "";
}

function step(from: typeof before, to: typeof after): void {
  const next = from.peek().at(-1);
  const now = job.peek();
  if (!next) return;
  from.value = from.peek().slice(0, -1);
  to.value = [...to.peek(), now];
  known = next;
  field = "";
  job.value = next;
}

/** One change back. */
export function undoEntry(): void {
  step(before, after);
}

export function redo(): void {
  step(after, before);
}

/** Remember every change of the job in hand from now on; another job begins with nothing to undo. */
export function followChanges(): void {
  effect(() => {
    const now = job.value;
    if (of !== jobNumber.value) {
      of = jobNumber.value;
      before.value = [];
      after.value = [];
    } else if (known && known !== now) {
      const id = changed(known, now);
      // Not the time of day: that may be set back.
      const time = performance.now();
      if (id === "" || id !== field || time - last > TOGETHER || before.peek().length === 0) {
        before.value = [...before.peek(), known].slice(-MOST);
      }
      after.value = [];
      field = id;
      last = time;
    }
    known = now;
  });
}
