import { type Job, job } from "../job/job";
import { goOn, handOut, openJob, readAddress, textOf } from "../link/address";
import { decodeJob } from "../link/decode";
import { encodeJob } from "../link/encode";
import { notedHere } from "../store/journal";
import { readLasts } from "../store/last";
import type { LastJob } from "../store/last_job";
import { offerUndo } from "../undo/undo";
import { beginShop } from "../job/shop";
import { unpackAddress } from "../link/address";
import { beginJob } from "../view/place";
import { words } from "../words";
import { demoJob } from "./demo";

/** So long the page waits for the store before it begins without [ms]. */
const PATIENCE = 1500;

/** The job to begin with: the address's, else the one that was here last, else the demonstration. */
export async function openFirstJob(): Promise<void> {
  await unpackAddress();
  const demonstration = demoJob();
  handOut(encodeJob(demonstration));
  const last = readLasts();
  if (location.hash.length > 1 || notedHere(location.hash)) {
    readAddress();
    void last.then(([newest]) => {
      if (newest) beginShop(decodeJob(newest.hash).job);
      offerLast(newest);
    });
    return;
  }
  const late = new Promise<null>((resolve) => setTimeout(() => resolve(null), PATIENCE));
  const jobs = await Promise.race([last, late]);
  if (jobs?.[0]) {
    beginShop(decodeJob(jobs[0].hash).job);
    return goOn(jobs[0]);
  }
  // A number of its own: under that of the last job it would take that one's place.
  beginJob();
  job.value = demonstration;
  if (!jobs) void last.then(([newest]) => openLate(newest, demonstration));
}

/** The last job, come late, takes the demonstration's place as long as nobody has touched that. */
function openLate(newest: LastJob | undefined, demonstration: Job): void {
  if (newest && job.value === demonstration) goOn(newest);
  else offerLast(newest);
}

/** Whether two jobs say the same, in whatever order: what is the shop's comes in by itself. */
function alike(one: string, other: string): boolean {
  const sorted = (text: string) => text.split("&").sort().join("&");
  return sorted(one) === sorted(other);
}

/** A link that takes the place of a job of the person's own must not lose it. */
function offerLast(newest: LastJob | undefined): void {
  if (!newest) return;
  const before = decodeJob(newest.hash).job;
  if (before.invented || alike(encodeJob(before), textOf(job.value))) return;
  offerUndo(words.link.inPlace, () => openJob(before));
}
