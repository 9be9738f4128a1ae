import { computed, signal } from "@preact/signals";
import type { Step } from "../contract";
import { answer } from "../job/answer";
import { speak, speaking, stopSpeaking } from "../speech/speech";
import { pick } from "../parts/Value";
import { nextCut } from "../job/renew";
import { atStep, markOf, stand, tick } from "../job/marks";
import { isGate, routeOf } from "../job/route";
import { focused } from "../view/focus";

const STORED = "conewright-one-step";

function storedChoice(): boolean {
  try {
    return localStorage.getItem(STORED) === "yes";
  } catch {
    return false;
  }
}

/** Whether one step stands large on the screen, or the list of an operation. */
export const oneAtATime = signal(storedChoice());

export function showOne(one: boolean): void {
  oneAtATime.value = one;
  try {
    localStorage.setItem(STORED, one ? "yes" : "no");
  } catch {
    // Asked again next time.
  }
}

let before: readonly Step[] = [];

/** While a measure is typed in the step that asks for it, that step stays: half a number may make another route. */
export const steps = computed<readonly Step[]>(() => {
  const now = answer.value ? routeOf(answer.value.sheet) : [];
  const asked = focused.value;
  const held = before.find(({ id, asks = [] }) => asks.includes(asked) && id === atStep.value);
  if (!held || now.some(({ id }) => id === held.id)) before = now;
  return before;
});

/** Proofs that the person went past all the same, by id; asked anew with every start of the page. */
const passed = signal<ReadonlySet<string>>(new Set());

/** Whether the steps are followed aloud. */
export const aloud = signal(false);

/** The first proof not made yet: what comes after it is not shown before it was seen. */
export const gate = computed<Step | null>(() => {
  const all = steps.value;
  return all.find((step) => isGate(step, all) && markOf(step) !== "done" && !passed.value.has(step.id)) ?? null;
});

/** The steps that may be shown: up to the first proof not made yet. */
export const open = computed<readonly Step[]>(() => {
  const at = gate.value ? steps.value.indexOf(gate.value) : -1;
  return at < 0 ? steps.value : steps.value.slice(0, at + 1);
});

export function passGate(): void {
  if (gate.value) passed.value = new Set([...passed.value, gate.value.id]);
}

/** The step in hand: where the person stands, else the first that is not done. */
export const current = computed<Step | null>(() => {
  const all = open.value;
  return all.find(({ id }) => id === atStep.value) ?? all.find((step) => markOf(step) !== "done") ?? all.at(-1) ?? null;
});

/** Counts the steps taken by the large actions: what is then in hand may lie out of sight. */
export const moves = signal(0);

function move(by: number): void {
  const all = open.value;
  const at = current.value ? all.indexOf(current.value) : -1;
  const next = all[at + by];
  if (!next) return;
  stand(next.id);
  moves.value++;
  if (aloud.value) speak(pick(next.text));
}

export function back(): void {
  move(-1);
}

/** The step is done: tick it and take the next into hand. */
export function doneAndNext(): void {
  const step = current.value;
  if (!step) return;
  if (nextCut(step)) {
    moves.value++;
    if (aloud.value && current.value) speak(pick(current.value.text));
    return;
  }
  if (markOf(step) !== "done") tick(step, true);
  move(1);
}

export function turnAloud(): void {
  aloud.value = !aloud.value;
  if (aloud.value && current.value) speak(pick(current.value.text));
  else stopSpeaking();
}

export const isSpeaking = computed(() => speaking.value !== "");
