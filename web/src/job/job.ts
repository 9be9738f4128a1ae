import { signal } from "@preact/signals";
import type { Piece, PieceKey, Units } from "../contract";

/** Everything the person has said. Never changed in place: another job is another object. */
export interface Job {
  readonly units: Units;
  readonly entries: Readonly<Record<string, string>>;
  readonly drawer: readonly Piece[];
  /** True while this descends from the demonstration: the page then says that its figures are invented. */
  readonly invented: boolean;
}

export const emptyPiece: Piece = { name: "", shape: "", size: "", measured: "", give: "", count: "" };

export function emptyJob(units: Units): Job {
  return { units, entries: {}, drawer: [], invented: false };
}

export const job = signal<Job>(emptyJob("mm"));

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

/** What `setEntry` or `setPiece` should be told for a field of this id. */
export function write(id: string, text: string): void {
  const place = /^drawer\.(\d+)\.(name|shape|size|measured|give|count)$/.exec(id);
  if (place?.[1] && place[2]) setPiece(Number(place[1]), place[2] as PieceKey, text);
  else setEntry(id, text);
}

/** The text as the person typed it, for a field of this id. */
export function written(id: string): string {
  const place = /^drawer\.(\d+)\.(name|shape|size|measured|give|count)$/.exec(id);
  if (place?.[1] && place[2]) return job.value.drawer[Number(place[1])]?.[place[2] as PieceKey] ?? "";
  return Object.hasOwn(job.value.entries, id) ? (job.value.entries[id] ?? "") : "";
}
