import { PIECE_KEYS } from "../contract";
import type { Job } from "../job/job";
import { escapeText, joinParts } from "./text";

/** The whole job as it stands after "#", readable, without the "#" itself. */
export function encodeJob(job: Job): string {
  const parts = ["format=1", `units=${job.units}`];
  if (job.invented) parts.push("invented=yes");
  for (const [id, text] of Object.entries(job.entries)) parts.push(`${escapeText(id)}=${escapeText(text)}`);
  for (const row of job.observations ?? []) {
    parts.push(`seen=${escapeText(joinParts(Object.entries(row).flat()))}`);
  }
  for (const piece of job.drawer) {
    parts.push(`piece=${escapeText(joinParts(PIECE_KEYS.map((key) => piece[key])))}`);
  }
  return parts.join("&");
}
