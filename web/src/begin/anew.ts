import type { Piece } from "../contract";
import { openJob } from "../link/address";
import { offerUndo } from "../undo/undo";
import { words } from "../words";
import { emptyJob, job } from "../job/job";

/** Put this job away and start another; the old one can be had back. */
export function startAnew(drawer: readonly Piece[]): void {
  const before = job.value;
  openJob({ ...emptyJob(before.units), drawer });
  offerUndo(before.invented ? words.demo.started : words.job.putAway, () => openJob(before), before.invented);
}
