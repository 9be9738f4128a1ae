import { PIECE_KEYS, type Piece, type Units } from "../contract";
import type { Job } from "../job/job";
import { words } from "../words";
import { splitParts, unescapeText } from "./text";

export interface Opened {
  readonly job: Job;
  /** What could not be read, one sentence each. */
  readonly troubles: readonly string[];
}

const MOST_PIECES = 1000;
const MOST_SEEN = 100;

/** Troubles told one by one; of a link with more, the rest is counted. */
const MOST_TROUBLES = 12;

/** Letters of a broken part that are said back. */
const LONGEST_ECHO = 80;

function echo(text: string): string {
  const letters = [...text.slice(0, 2 * LONGEST_ECHO)];
  return text.length <= LONGEST_ECHO ? text : `${letters.slice(0, LONGEST_ECHO).join("")} …`;
}

/** Each trouble once, the first few in words and the rest as a number. */
function told(troubles: readonly string[]): string[] {
  const each = [...new Set(troubles)];
  if (each.length <= MOST_TROUBLES) return each;
  return [...each.slice(0, MOST_TROUBLES), words.link.moreTroubles(troubles.length - MOST_TROUBLES)];
}

function readPiece(text: string, troubles: string[]): Piece {
  const parts = splitParts(text);
  if (parts.length !== PIECE_KEYS.length) troubles.push(words.link.pieceParts(echo(text), parts.length));
  return Object.fromEntries(PIECE_KEYS.map((key, at) => [key, parts[at] ?? ""])) as unknown as Piece;
}

/** What was seen of a cut: names and texts by turns. A name without its text has none. */
function readSeen(text: string): Readonly<Record<string, string>> {
  const parts = splitParts(text);
  return Object.fromEntries(parts.flatMap((key, at) => (at % 2 === 0 && key !== "" ? [[key, parts[at + 1] ?? ""]] : [])));
}

/** Read what can be read of an address; `hash` may start with "#". Never throws. */
export function decodeJob(hash: string): Opened {
  const troubles: string[] = [];
  const entries = new Map<string, string>();
  const drawer: Piece[] = [];
  const observations: Readonly<Record<string, string>>[] = [];
  let units: Units = "mm";
  let invented = false;
  let format = "";

  for (const part of hash.replace(/^#/, "").split("&")) {
    if (part === "") continue;
    const at = part.indexOf("=");
    const id = unescapeText(at < 0 ? part : part.slice(0, at));
    const text = unescapeText(at < 0 ? "" : part.slice(at + 1));
    if (at < 1 || id === null || text === null) troubles.push(words.link.unreadable(echo(part)));
    else if (id === "format") format = text;
    else if (id === "units") {
      if (text === "mm" || text === "inch") units = text;
      else troubles.push(words.link.units(echo(text)));
    } else if (id === "invented") invented = text === "yes";
    else if (id === "piece") {
      if (drawer.length < MOST_PIECES) drawer.push(readPiece(text, troubles));
      else troubles.push(words.link.tooMany(MOST_PIECES));
    } else if (id === "seen") {
      if (observations.length < MOST_SEEN) observations.push(readSeen(text));
    } else if (entries.has(id)) troubles.push(words.link.twice(echo(id), echo(entries.get(id) ?? ""), echo(text)));
    else entries.set(id, text);
  }

  if (format === "") troubles.push(words.link.noFormat);
  else if (format !== "1") troubles.push(words.link.format(echo(format)));
  const seen = observations.length > 0 ? { observations } : {};
  const job: Job = { units, entries: Object.fromEntries(entries), drawer, ...seen, invented };
  return { job, troubles: told(troubles) };
}
