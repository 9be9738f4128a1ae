import type { Piece } from "../contract";
import { job, setPiece } from "../job/job";

/** Pieces put out of hand, with how many there were: known as long as the page is open. */
const before = new Map<string, string>();

/** A piece of which there is none is in the drawer and not to hand: no stack is built with it. */
export function isAway(piece: Piece): boolean {
  return piece.count.trim() === "0";
}

export function turnAway(index: number): void {
  const piece = job.value.drawer[index];
  if (!piece) return;
  const key = `${piece.name}|${piece.size}|${piece.measured}`;
  if (isAway(piece)) setPiece(index, "count", before.get(key) ?? "1");
  else {
    before.set(key, piece.count);
    setPiece(index, "count", "0");
  }
}
