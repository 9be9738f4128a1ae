import { effect, signal } from "@preact/signals";
import { type Job, job } from "../job/job";
import { withoutShop, withShop } from "../job/shop";
import { beginJob, numberOf, sameJob, spot } from "../view/place";
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
  const text = encodeJob(withoutShop(job.value));
  if (location.hash.slice(1) !== text || !sameJob(history.state)) {
    history.replaceState(sameJob(history.state) ? history.state : spot(), "", `#${text}`);
  }
  keepLast(text);
}

/** The address that holds the job as it stands at this moment. */
export function fullAddress(): string {
  return `${location.href.replace(/#.*$/, "")}#${encodeJob(withoutShop(job.value))}`;
}

/** Put another job in place of this one, with a step back to this one in the browser's history. */
export function openJob(next: Job, unread: readonly string[] = []): void {
  writeAddress();
  history.pushState(beginJob(), "", `#${encodeJob(withoutShop(next))}`);
  job.value = withShop(next);
  troubles.value = unread;
}

export function readAddress(): void {
  const opened = decodeJob(location.hash);
  job.value = withShop(opened.job);
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
    if (location.hash.length <= 1) return;
    // A step between places of the job in hand: the address there may be an older one of the same job.
    if (sameJob(history.state)) return writeAddress();
    history.replaceState(beginJob(numberOf(history.state) || undefined), "", location.href);
    readAddress();
  });
  addEventListener("pagehide", () => due && writeAddress());
  document.addEventListener("visibilitychange", () => document.hidden && due && writeAddress());
}
