import type { Piece } from "../contract";
import { readPiece } from "../contract";
import { type Kept, readShelf } from "../kept/records";

/** The form of the file, described in the notes for developers. Format 1 must open for ever. */
export const FORMAT = 1;

interface Read {
  readonly kept: readonly Kept[];
  readonly strange: number;
  readonly entries: Readonly<Record<string, string>>;
  readonly drawer: readonly Piece[];
  readonly history: readonly unknown[];
}

/** What can be read of a file; null where it is none of ours. */
export function readEverything(text: string): Read | null {
  let raw: { conewright?: unknown; kept?: unknown; shop?: { entries?: unknown; drawer?: unknown; history?: unknown } } | null;
  try {
    raw = JSON.parse(text);
  } catch {
    return null;
  }
  if (typeof raw !== "object" || raw === null || raw.conewright !== FORMAT) return null;
  const { records, foreign } = readShelf(Array.isArray(raw.kept) ? raw.kept : []);
  const entries = Object.entries(raw.shop?.entries ?? {}).filter((pair): pair is [string, string] => typeof pair[1] === "string");
  const drawer = Array.isArray(raw.shop?.drawer) ? raw.shop.drawer : [];
  const pieces = drawer.filter((one): one is Record<string, unknown> => typeof one === "object" && one !== null);
  const history = Array.isArray(raw.shop?.history) ? raw.shop.history : [];
  return { kept: records, strange: foreign.length, entries: Object.fromEntries(entries), drawer: pieces.map(readPiece), history };
}
