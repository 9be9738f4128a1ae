import type { Piece, Sheet } from "../contract";
import { askAside } from "../job/answer";
import { job } from "../job/job";
import { type LineRead, readLines, readSheet } from "../job/request";
import { offerUndo } from "../undo/undo";
import { words } from "../words";

export interface Added {
  /** How many pieces came into the drawer. */
  readonly count: number;
  /** The lines that could not be read, each with what is wrong with it. */
  readonly left: readonly LineRead[];
  readonly lost: boolean;
}

/** Put pieces into the drawer as they were written, one a line. Nothing else of the job changes. */
export async function addLines(lines: readonly string[]): Promise<Added> {
  const { value: of } = job;
  let sheet: Sheet;
  let read: readonly LineRead[];
  try {
    const text = await askAside(of, { add_lines: lines });
    sheet = readSheet(JSON.parse(text));
    read = readLines(text);
  } catch {
    return { count: 0, left: [], lost: true };
  }
  // The drawer was changed meanwhile: the answer is about another one.
  if (job.value.drawer !== of.drawer) return addLines(lines);
  const added = sheet.drawer.slice(of.drawer.length);
  if (added.length > 0) append(added);
  return { count: added.length, left: read.filter(({ wrong }) => wrong), lost: false };
}

function append(added: readonly Piece[]): void {
  job.value = { ...job.value, drawer: [...job.value.drawer, ...added] };
  if (added.length < 2) return;
  const gone = new Set(added);
  offerUndo(words.lines.added(added.length), () => {
    // A piece that was changed since is another object, and stays.
    job.value = { ...job.value, drawer: job.value.drawer.filter((piece) => !gone.has(piece)) };
  });
}
