import type { Piece } from "../contract";
import { menuOpen } from "../view/menu";
import { openJob } from "../link/address";
import { answer } from "../job/answer";
import { setOpen } from "../view/open";
import { offerUndo } from "../undo/undo";
import { words } from "../words";
import { emptyJob, job } from "../job/job";

/** Put this job away and start another; the old one can be had back. */
export function startAnew(drawer: readonly Piece[]): void {
  const before = job.value;
  openJob({ ...emptyJob(before.units), drawer });
  offerUndo(before.invented ? words.demo.started : words.job.putAway, () => openJob(before));
  menuOpen.value = false;
  const first = answer.value?.sheet.stages[0];
  if (first) setOpen(first.id, true);
  scrollTo(0, 0);
}
