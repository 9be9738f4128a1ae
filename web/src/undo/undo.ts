import { signal } from "@preact/signals";

export interface Undo {
  readonly said: string;
  readonly back: () => unknown;
  /** Nothing of the person's own went: the offer goes as soon as they go on to another place. */
  readonly slight: boolean;
}

/** What was taken away last and can be had back; it stays until taken back, waved off, or followed by another. */
export const undo = signal<Undo | null>(null);

export function offerUndo(said: string, back: () => unknown, slight = false): void {
  undo.value = { said, back, slight };
}
