import { effect, signal } from "@preact/signals";
import { type Job, job } from "../job/job";
import { keepLast } from "../store/last";
import { decodeJob } from "./decode";
import { encodeJob } from "./encode";

/** What could not be read of the address that was opened. */
export const troubles = signal<readonly string[]>([]);

/** Some browsers refuse more than a hundred changes of the address in half a minute. */
const PAUSE = 350;

let due: ReturnType<typeof setTimeout> | undefined;

/** Write the job to the address now rather than in a moment. */
export function writeAddress(): void {
  clearTimeout(due);
  due = undefined;
  const text = encodeJob(job.value);
  if (location.hash.slice(1) !== text) history.replaceState(history.state, "", `#${text}`);
  keepLast(text);
}

/** The address that holds the job as it stands at this moment. */
export function fullAddress(): string {
  return `${location.href.replace(/#.*$/, "")}#${encodeJob(job.value)}`;
}

/** Put another job in place of this one, with a step back to this one in the browser's history. */
export function openJob(next: Job, unread: readonly string[] = []): void {
  writeAddress();
  history.pushState(null, "", `#${encodeJob(next)}`);
  job.value = next;
  troubles.value = unread;
}

export function readAddress(): void {
  const opened = decodeJob(location.hash);
  job.value = opened.job;
  troubles.value = opened.troubles;
}

/** Keep address and job the same, both ways, from now on. */
export function followAddress(): void {
  effect(() => {
    job.value;
    clearTimeout(due);
    due = setTimeout(writeAddress, PAUSE);
  });
  addEventListener("hashchange", () => {
    // A person pasted a link or went a step back; our own writing makes no such event.
    clearTimeout(due);
    if (location.hash.length > 1) readAddress();
  });
  addEventListener("pagehide", () => due && writeAddress());
  document.addEventListener("visibilitychange", () => document.hidden && due && writeAddress());
}
