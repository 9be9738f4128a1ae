import { openJob, readAddress } from "../link/address";
import { decodeJob } from "../link/decode";
import { encodeJob } from "../link/encode";
import { readLast } from "../store/last";
import { offerUndo } from "../undo/undo";
import { words } from "../words";
import { demoJob } from "./demo";
import { job } from "../job/job";
import { withShop } from "../job/shop";

/** The job to begin with: the address's, else the one that was here last, else the demonstration. */
export async function openFirstJob(): Promise<void> {
  const last = readLast();
  if (location.hash.length > 1) {
    readAddress();
    void last.then(offerLast);
    return;
  }
  const text = await last;
  job.value = text ? withShop(decodeJob(text).job) : demoJob();
}

/** A link that takes the place of a job of the person's own must not lose it. */
function offerLast(text: string): void {
  const before = decodeJob(text).job;
  if (text === "" || before.invented || encodeJob(before) === encodeJob(job.value)) return;
  offerUndo(words.link.inPlace, () => openJob(before));
}
