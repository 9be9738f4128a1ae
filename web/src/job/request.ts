import { type LaterRows, readPiece, type Sheet } from "../contract";
import type { Job } from "./job";

/** What can be asked beside the sheet itself. */
export interface Aside {
  /** Some of the later rows of a figure's table. */
  readonly later?: { readonly figure: string; readonly items: readonly string[] };
  /** Customary sets to be put into the drawer. */
  readonly add?: readonly string[];
}

/** The one JSON text that crosses to the core. */
export function requestText(job: Job, aside: Aside = {}): string {
  const { units, entries, drawer } = job;
  return JSON.stringify({ format: 1, units, entries, drawer, history: [], ...aside });
}

/** Rows of a table; throws when the answer holds none. */
export function readLater(text: string): LaterRows {
  const raw = JSON.parse(text) as Partial<LaterRows> | null;
  if (!raw || !Array.isArray(raw.rows)) throw new Error("the answer holds no rows");
  return { rows: raw.rows, problems: raw.problems ?? [] };
}

/** The core's answer; throws when it is no sheet at all, and fills what a lean sheet leaves out. */
export function readSheet(text: string): Sheet {
  const raw = JSON.parse(text) as Partial<Sheet> | null;
  if (!raw || !Array.isArray(raw.stages)) throw new Error("the answer holds no stages");
  return {
    format: raw.format ?? 1,
    units: raw.units === "inch" ? "inch" : "mm",
    stages: raw.stages,
    problems: raw.problems ?? [],
    entries: raw.entries ?? {},
    drawer: (raw.drawer ?? []).map((piece) => readPiece({ ...piece })),
  };
}
