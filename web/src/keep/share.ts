import type { encode } from "uqr";
import { programAt } from "../bridge/open_worker";
import { type Job, job } from "../job/job";
import { answer } from "../job/answer";
import { encodeJob } from "../link/encode";
import { pack } from "../link/packed";

/** What of the shop goes along with a job: nothing, the pieces of its stack, or the whole drawer. */
export type Along = "none" | "stack" | "drawer";

function stackPlaces(): ReadonlySet<number> {
  const values = (answer.value?.sheet.stages ?? []).flatMap(({ figures = [] }) => figures.flatMap(({ value }) => (Array.isArray(value) ? value : [])));
  const places = values.map((piece: { place?: unknown } | null) => piece?.place);
  return new Set(places.filter((place): place is number => typeof place === "number"));
}

/** The address that opens this job elsewhere, as short as it can be. */
export async function shortLink(along: Along): Promise<string> {
  const now = job.value;
  const used = along === "stack" ? stackPlaces() : null;
  const drawer = along === "none" ? [] : now.drawer.filter((_, place) => used === null || used.has(place));
  const lean: Job = { ...now, drawer };
  return `${location.href.replace(/#.*$/, "")}#${await pack(encodeJob(lean))}`;
}

/** The square code of a text, as rows of dark and light; null where it is too long for one or cannot be had. */
export async function codeOf(text: string): Promise<readonly (readonly boolean[])[] | null> {
  try {
    // Named at run time, so that it stays a file of its own.
    const file = programAt("qr.js");
    await import(file);
    const { codeMaker } = self as unknown as { readonly codeMaker: typeof encode };
    return codeMaker(text, { ecc: "L", border: 4 }).data;
  } catch {
    return null;
  }
}
