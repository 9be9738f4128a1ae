import { computed, effect } from "@preact/signals";
import type { Step } from "../contract";
import { offerUndo, undo } from "../undo/undo";
import { jobNumber } from "../view/place";
import { words } from "../words";
import { answer } from "./answer";
import { type Job, job } from "./job";
import { anyDone, atStep, startOver, untick } from "./marks";
import { phasesOf, routeOf } from "./route";
import { changeHistory, shop } from "./shop";

/** What the core says to remember of the cut in hand, of just this job; undefined where it says nothing, or not yet. */
const record = computed(() => {
  const latest = answer.value;
  const seen = (job.value.observations ?? []).length > 0;
  return seen && latest && !latest.unchecked && latest.of === job.value ? latest.sheet.record : undefined;
});

/** Entries that are of the part in hand alone: measured of it, or done to it. */
const ofPart = computed<readonly string[]>(() => {
  const fields = (answer.value?.sheet.stages ?? []).flatMap(({ fields = [] }) => fields);
  return fields.filter(({ id, belongs }) => belongs === "part" && job.value.entries[id]).map(({ id }) => id);
});

/** Whether anything of a part stands in this job; and whether a proof of it is there to be remembered. */
export const partBegun = computed(() => ofPart.value.length > 0 || (job.value.observations ?? []).length > 0);
export const partProved = computed(() => Boolean(record.value) && !job.value.invented);

/** With what was begun no step of this job is ticked: it was taken up again, and the part may be another one. */
export const partOfEarlier = computed(() => partBegun.value && !anyDone.value && !job.value.invented);

/** Put away what was seen; what the core says of it joins what the lathe has taught, but for an invented job. */
function putAway(of: Job, entries: Job["entries"]): () => void {
  const before = shop.value.history;
  const number = jobNumber.value;
  const known = (of.history ?? []).some((one) => JSON.stringify(one) === JSON.stringify(record.value));
  const history = record.value && !known ? [...(of.history ?? []), record.value] : (of.history ?? []);
  if (!of.invented && history !== of.history) changeHistory(history);
  job.value = { ...job.value, entries, observations: [], history };
  return () => {
    if (shop.value.history !== before) changeHistory(before);
    if (jobNumber.value === number) job.value = of;
  };
}

/** Offer it back until the person goes on with the job: what is typed after it is not to be lost by it. */
function offer(said: string, ...back: readonly (() => void)[]): void {
  offerUndo(said, () => back.forEach((one) => one()));
  const [made, offered] = [job.value, undo.value];
  const stop = effect(() => {
    if (job.value === made) return;
    if (undo.peek() === offered) undo.value = null;
    queueMicrotask(() => stop());
  });
}

/** Ends the waiting for an answer with which the next cut begins; there is never more than one. */
let waiting: (() => void) | undefined;

const cutsAgain = (step: Step) => Object.keys(step.renews ?? {}).length > 0;

/**
 * The step cuts again: what was seen is remembered, and the next cut is proved anew; false for any other step. Where the
 * core has not answered yet, as soon as it has, if the step is still in hand.
 */
export function nextCut(step: Step): boolean {
  if (!cutsAgain(step)) return false;
  waiting?.();
  waiting = undefined;
  if (record.value) {
    renew(step.id);
    return true;
  }
  const number = jobNumber.peek();
  waiting = effect(() => {
    if (record.value) queueMicrotask(() => {
      if (!waiting) return;
      waiting();
      waiting = undefined;
      if (jobNumber.peek() === number && ["", step.id].includes(atStep.peek())) renew(step.id);
    });
  });
  return true;
}

function renew(id: string): void {
  const latest = answer.peek();
  const step = latest ? routeOf(latest.sheet).find((one) => one.id === id) : undefined;
  if (!latest || !step || !cutsAgain(step)) return;
  const renews = step.renews ?? {};
  const entries = Object.fromEntries(Object.entries({ ...job.value.entries, ...renews }).filter(([, text]) => text !== ""));
  const proof = phasesOf(routeOf(latest.sheet)).find(({ steps }) => steps.some(({ id }) => id === step.id));
  const back = putAway(job.value, entries);
  const ticks = untick((proof?.steps ?? []).map(({ id }) => id));
  offer(words.lathe.renewed, back, ticks);
}

/** The next part of its kind: what was seen, measured and ticked of the last one is put away. */
export function nextPart(): void {
  const gone = new Set(ofPart.value);
  const entries = Object.fromEntries(Object.entries(job.value.entries).filter(([id]) => !gone.has(id)));
  const back = putAway(job.value, entries);
  offer(words.part.begun, back, startOver());
}
