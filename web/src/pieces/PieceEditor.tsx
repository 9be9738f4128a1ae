import type { Field } from "../contract";
import { FieldView } from "../fields/FieldView";
import { words } from "../words";

interface Props {
  readonly fields: readonly Field[] | undefined;
  readonly onRemove: () => void;
  readonly onDone: () => void;
}

/** The fields of one piece, as the core asks them. */
export function PieceEditor({ fields, onRemove, onDone }: Props) {
  return (
    <div class="piece-editor">
      {fields ? fields.map((field) => <FieldView key={field.id} field={field} />) : <p>{words.pieces.waiting}</p>}
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
