import { effect, signal } from "@preact/signals";
import { createBridge, Lost, type Bridge } from "../bridge/bridge";
import type { Sheet } from "../contract";
import { cutOff, engine, unreadable } from "../bridge/engine";
import { type Job, job } from "./job";
import { type Aside, readSheet, requestText } from "./request";

/** The latest answer, and the very job that it answers. */
export const answer = signal<{ readonly sheet: Sheet; readonly of: Job } | null>(null);

let bridge: Bridge<Job> | null = null;

/** Start the core's worker; it can load while the page finds out what job there is. */
export function startEngine(): void {
  bridge = createBridge<Job>({
    start: () => new Worker("worker.js", { type: "module" }),
    onState: (state) => {
      engine.value = state;
    },
    onCutOff: () => {
      cutOff.value = true;
    },
    onAnswer: (text, of) => {
      try {
        answer.value = { sheet: readSheet(text), of };
        unreadable.value = "";
      } catch (error) {
        unreadable.value = String(error);
      }
      cutOff.value = false;
    },
  });
}

/** Ask anew whenever the job changes. */
export function startAnswering(): void {
  effect(() => bridge?.ask(requestText(job.value), job.value));
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
