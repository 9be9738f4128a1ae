import { computed, signal } from "@preact/signals";
import type { Piece, PieceKey, Units } from "../contract";

/** Everything the person has said. Never changed in place: another job is another object. */
export interface Job {
  readonly units: Units;
  readonly entries: Readonly<Record<string, string>>;
  readonly drawer: readonly Piece[];
  /** What was seen of the cut in hand: rows of texts as typed. */
  readonly observations?: readonly Readonly<Record<string, string>>[];
  /** Proved cuts, as the core handed them out: what this lathe has taught. The shop's, never in an address. */
  readonly history?: readonly unknown[];
  /** Parts that this job keeps for itself although the shop has others: ids of entries, and "drawer". */
  readonly own?: readonly string[];
  /** True while this descends from the demonstration: the page then says that its figures are invented. */
  readonly invented: boolean;
}

export const emptyPiece: Piece = { name: "", shape: "", size: "", measured: "", give: "", count: "" };

export function emptyJob(units: Units): Job {
  return { units, entries: {}, drawer: [], invented: false };
}

export const job = signal<Job>(emptyJob("mm"));

/** Whether the job in hand descends from the demonstration: by itself, so that a key draws nothing that only asks this. */
export const invented = computed(() => job.value.invented);

export function setEntry(id: string, text: string): void {
  const { [id]: _before, ...others } = job.value.entries;
  job.value = { ...job.value, entries: text === "" ? others : { ...others, [id]: text } };
}

export function setPiece(index: number, key: PieceKey, text: string): void {
  const drawer = job.value.drawer.map((piece, at) => (at === index ? { ...piece, [key]: text } : piece));
  job.value = { ...job.value, drawer };
}

export function insertPiece(index: number, piece: Piece): void {
  job.value = { ...job.value, drawer: [...job.value.drawer.slice(0, index), piece, ...job.value.drawer.slice(index)] };
}

export function removePiece(index: number): void {
  job.value = { ...job.value, drawer: job.value.drawer.filter((_, at) => at !== index) };
}

type Rows = readonly Readonly<Record<string, string>>[];

export function setRows(observations: Rows): void {
  job.value = { ...job.value, observations };
}

const ROW = /^observations\.(\d+)\.(\w+)$/;
const PIECE = /^drawer\.(\d+)\.(name|shape|size|measured|give|count)$/;

function setCell(index: number, key: string, text: string): void {
  const rows = [...(job.value.observations ?? [])];
  while (rows.length <= index) rows.push({});
  const { [key]: _before, ...others } = rows[index] ?? {};
  rows[index] = text === "" ? others : { ...others, [key]: text };
  setRows(rows);
}

/** Write an answer wherever a field of this id has its place: an entry, a piece, a row of what was seen. */
export function write(id: string, text: string): void {
  const row = ROW.exec(id);
  const place = PIECE.exec(id);
  if (row?.[1] && row[2]) setCell(Number(row[1]), row[2], text);
  else if (place?.[1] && place[2]) setPiece(Number(place[1]), place[2] as PieceKey, text);
  else setEntry(id, text);
}

/** The text as the person typed it, for a field of this id. */
export function written(id: string): string {
  const row = ROW.exec(id);
  const place = PIECE.exec(id);
  if (row?.[1] && row[2]) return job.value.observations?.[Number(row[1])]?.[row[2]] ?? "";
  if (place?.[1] && place[2]) return job.value.drawer[Number(place[1])]?.[place[2] as PieceKey] ?? "";
  return Object.hasOwn(job.value.entries, id) ? (job.value.entries[id] ?? "") : "";
}
