import type { Sheet, Step } from "../contract";
import { figureIn } from "../job/lead";

/** Limits are a list too, of numbers: they stand with the step. */
const isPieces = (value: unknown) => Array.isArray(value) && value.some((one) => typeof one !== "number");

/** The pieces that a step lays together, or an empty id. */
export function piecesOf(sheet: Sheet, step: Step): string {
  return (step.shows ?? []).find((id) => isPieces(figureIn(sheet, id)?.value)) ?? "";
}

/** The first number that a step works to, or an empty id where the job's own number stays in force. */
export function numberOf(sheet: Sheet, step: Step): string {
  return (step.shows ?? []).find((id) => typeof figureIn(sheet, id)?.value === "number") ?? "";
}
