import { type Fault, type LaterRows, readPiece, type Sheet } from "../contract";
import type { Job } from "./job";

/** What can be asked beside the sheet itself. */
export interface Aside {
  /** Some of the later rows of a figure's table. */
  readonly later?: { readonly figure: string; readonly items: readonly string[] };
  /** Customary sets to be put into the drawer. */
  readonly add?: readonly string[];
  /** Pieces for the drawer, one a line as a person writes them. */
  readonly add_lines?: readonly string[];
}

let proved: { readonly of: readonly unknown[]; readonly text: string } | null = null;

/** The proved cuts as text, written once as long as they stay: hundreds of them are nearly all of a request. */
function historyText(of: readonly unknown[]): string {
  if (proved?.of !== of) proved = { of, text: JSON.stringify(of) };
  return proved.text;
}

/** The one JSON text that crosses to the core; the history stands last, where the core reads it once. */
export function requestText(job: Job, aside: Aside = {}): string {
  const { units, entries, drawer, observations = [], history = [] } = job;
  const seen = observations.length > 0 ? { observations } : {};
  const first = JSON.stringify({ format: 1, units, entries, drawer, ...seen, ...aside });
  return `${first.slice(0, -1)},"history":${historyText(history)}}`;
}

/** Rows of a table; throws when the answer holds none. */
export function readLater(text: string): LaterRows {
  const raw = JSON.parse(text) as Partial<LaterRows> | null;
  if (!raw || !Array.isArray(raw.rows)) throw new Error("the answer holds no rows");
  return { rows: raw.rows, problems: raw.problems ?? [] };
}

/** The core's answer; throws when it is no sheet at all, and fills what a lean sheet leaves out. */
export function readSheet(told: unknown): Sheet {
  const raw = told as Partial<Sheet> | null;
  if (!raw || !Array.isArray(raw.stages)) throw new Error("the answer holds no stages");
  return {
    format: raw.format ?? 1,
    units: raw.units === "inch" ? "inch" : "mm",
    stages: raw.stages,
    problems: raw.problems ?? [],
    entries: raw.entries ?? {},
    defaults: raw.defaults ?? {},
    drawer: (raw.drawer ?? []).map((piece) => readPiece({ ...piece })),
    observations: raw.observations ?? [],
    route: raw.route ?? [],
    cautions: raw.cautions ?? [],
    glance: raw.glance ?? null,
    record: raw.record ?? null,
  };
}

/** What became of each line that was to be a piece. */
export interface LineRead {
  readonly text: string;
  readonly wrong: Fault | null;
}

/** The lines in their order; empty where the core knows no lines. */
export function readLines(text: string): readonly LineRead[] {
  const raw = JSON.parse(text) as { lines?: readonly LineRead[] } | null;
  return Array.isArray(raw?.lines) ? raw.lines : [];
}
