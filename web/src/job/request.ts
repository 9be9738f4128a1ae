import type { Sheet } from "../contract";
import type { Job } from "./job";

/** The one JSON text that crosses to the core. */
export function requestText(job: Job): string {
  return JSON.stringify({ format: 1, units: job.units, entries: job.entries, drawer: job.drawer, history: [] });
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
    drawer: raw.drawer ?? [],
  };
}
