import { computed, effect, signal } from "@preact/signals";
import { createBridge, Lost, type Bridge } from "../bridge/bridge";
import type { Sheet } from "../contract";
import { cutOff, engine, unreadable } from "../bridge/engine";
import { distrust, openWorker } from "../bridge/open_worker";
import { quietAgain, watchForQuiet } from "../bridge/snapshot";
import { alike } from "./alike";
import { type Job, job } from "./job";
import { lookedAt } from "./looked_at";
import { Parts, type Put } from "./parts";
import { type Aside, requestText } from "./request";
import { place, type Place, which } from "../view/place";

/**
 * The latest answer, and the very job that it answers. While it is not `whole` yet, what is not looked at may still be the
 * answer to an earlier job.
 */
export const answer = signal<Answered | null>(null);

interface Answered {
  readonly sheet: Sheet;
  readonly of: Job;
  readonly whole: boolean;
  /** It stood so when the page was left; the core has not answered yet. Nothing but what is seen may depend on it. */
  readonly unchecked?: true;
  /** What was shown unchecked was not this. */
  readonly corrected?: true;
}

/** What is shown is unchecked, and for what stood before something was changed. */
export const overtaken = computed(() => answer.value?.unchecked === true && answer.value.of !== job.value);

/** Where the figures at a glance are on the screen. */
const GLANCING: ReadonlySet<Place> = new Set(["card", "lathe"]);

let bridge: Bridge<Job> | null = null;
let asked: Job | null = null;

/** Start the core's worker; it can load while the page finds out what job there is. */
export function startEngine(): void {
  const parts = new Parts();
  let lost = false;
  bridge = createBridge<Job>({
    start: openWorker,
    onState: (state) => {
      engine.value = state;
      if (state.kind === "failed") distrust();
    },
    onReady: ({ snapshot }) => snapshot || watchForQuiet(),
    onCutOff: () => {
      cutOff.value = true;
    },
    onAnswer: (text, of) => {
      try {
        show(parts.put(text), of);
        unreadable.value = "";
        lost = false;
      } catch (error) {
        // Parts may have gone by: once, the whole is asked for anew.
        if (lost) unreadable.value = String(error);
        else bridge?.again(requestText(job.value), job.value);
        lost = !lost;
      }
      cutOff.value = false;
    },
  });
}

/** What stands unchecked goes on standing until the whole of its request is answered. */
function show(put: Put, of: Job): void {
  const shown = answer.peek();
  const checks = shown?.unchecked && shown.of === of;
  if (checks && !put.whole) return;
  answer.value = { ...put, of, ...(checks && !alike(shown.sheet, put.sheet) ? { corrected: true } : {}) };
}

/** Ask anew whenever the job changes. */
export function startAnswering(): void {
  effect(() => {
    const now = job.value;
    const latest = answer.peek();
    // The core has handed out nothing yet of what is shown unchecked.
    const sheet = latest && !latest.unchecked ? latest.sheet : null;
    bridge?.ask(requestText(now), now, lookedAt(now, asked, sheet, GLANCING.has(place.peek()), which.peek()));
    asked = now;
    quietAgain();
  });
}

/** Ask the core something beside the sheet of this job; fails with a Lost when no answer will come. */
export function askAside(of: Job, aside: Aside): Promise<string> {
  return bridge ? bridge.aside(requestText(of, aside)) : Promise.reject(new Lost());
}

/** Ask for the present job once more, after a failure or a cut-off. */
export function askAgain(): void {
  cutOff.value = false;
  unreadable.value = "";
  bridge?.again(requestText(job.value), job.value);
}
