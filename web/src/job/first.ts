import { readAddress } from "../link/address";
import { decodeJob } from "../link/decode";
import { readLast } from "../kept/last";
import { demoJob } from "./demo";
import { job } from "./job";

/** The job to begin with: the address's, else the one that was here last, else the demonstration. */
export async function openFirstJob(): Promise<void> {
  if (location.hash.length > 1) return readAddress();
  const last = await readLast();
  job.value = last ? decodeJob(last).job : demoJob();
}
