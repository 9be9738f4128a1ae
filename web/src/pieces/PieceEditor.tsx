import type { ComponentChild } from "preact";
import type { Field } from "../contract";
import { words } from "../words";

/** How a field of a piece is asked for: as any other field is. */
export type Ask = (field: Field) => ComponentChild;

interface Props {
  readonly fields: readonly Field[] | undefined;
  readonly ask: Ask;
  readonly onRemove: () => void;
  readonly onDone: () => void;
}

/** The fields of one piece, as the core asks them. */
export function PieceEditor({ fields, ask, onRemove, onDone }: Props) {
  return (
    <div class="piece-editor">
      {fields ? fields.map(ask) : <p>{words.pieces.waiting}</p>}
      <div class="buttons">
        <button type="button" class="strong" onClick={onDone}>
          {words.pieces.done}
        </button>
        <button type="button" onClick={onRemove}>
          {words.pieces.remove}
        </button>
      </div>
    </div>
  );
}
