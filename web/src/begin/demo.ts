import raw from "../generated/demo.json";
import { readPiece } from "../contract";
import type { Job } from "../job/job";

/** The core's own demonstration, written at build, as it stands before the first cut; counts may come as numbers. */
export function demoJob(): Job {
  const entries = Object.entries(raw.entries as Record<string, unknown>).map(([id, text]) => [id, String(text)]);
  const drawer = (raw.drawer as Record<string, unknown>[]).map(readPiece);
  return { units: raw.units === "inch" ? "inch" : "mm", entries: Object.fromEntries(entries), drawer, invented: true };
}
