import type { Piece } from "../contract";
import { readPiece } from "../contract";
import { mergeShop, shop } from "../job/shop";
import { mergeIn, shelf } from "../kept/shelf";
import { type Kept, readShelf } from "../kept/records";
import { words } from "../words";

/** The form of the file, described in the notes for developers. Format 1 must open for ever. */
const FORMAT = 1;
/** A file larger than this is none of ours [bytes]. */
const MOST = 20_000_000;

/** All that is kept here, as the text of one file. */
export function everything(): string {
  const { records, foreign } = shelf.value;
  const { entries, drawer, history } = shop.value;
  const whole = { conewright: FORMAT, made: new Date().toISOString(), kept: [...records, ...foreign], shop: { entries, drawer, history } };
  return `${JSON.stringify(whole, null, 1)}\n`;
}

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

/** Merge a file with what is here: nothing that is here is changed or lost. Tells in words what came of it. */
export async function takeIn(file: File): Promise<string> {
  if (file.size > MOST) return words.file.foreign;
  const read = readEverything(await file.text());
  if (!read) return words.file.foreign;
  const came = await mergeIn(read.kept);
  if (came === null) return words.kept.refused;
  const shopCame = mergeShop(read);
  return words.file.report({ ...shopCame, kept: came, keptHere: read.kept.length - came, strange: read.strange });
}
