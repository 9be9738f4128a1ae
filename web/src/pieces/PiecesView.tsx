import { useSignal } from "@preact/signals";
import { useRef } from "preact/hooks";
import type { Field } from "../contract";
import { emptyPiece, insertPiece, job, removePiece } from "../job/job";
import { offerUndo } from "../undo/undo";
import { words } from "../words";
import { AddSet } from "./AddSet";
import { useEditorFocus } from "./editor_focus";
import { type Ask, PieceEditor } from "./PieceEditor";
import { PieceRow, pieceName } from "./PieceRow";

interface Props {
  readonly field: Field;
  readonly ask: Ask;
}

/** The drawer: a short line for each piece, and one of them open at a time for changing. */
export function PiecesView({ field, ask }: Props) {
  const unfolded = useSignal(false);
  const open = useSignal(-1);
  const list = useRef<HTMLUListElement>(null);
  const pieces = job.value.drawer;
  const rows = field.rows ?? [];
  const faults = rows.filter((row) => row.some(({ wrong }) => wrong)).length;

  useEditorFocus(list, open.value);

  const add = () => {
    unfolded.value = true;
    insertPiece(job.value.drawer.length, emptyPiece);
    open.value = job.value.drawer.length - 1;
  };
  const remove = (index: number) => {
    const piece = pieces[index];
    if (!piece) return;
    open.value = -1;
    removePiece(index);
    offerUndo(words.pieces.removed(pieceName(piece, index)), () => insertPiece(index, piece));
  };

  return (
    <section class="field pieces" data-field={field.id} aria-label={field.label}>
      <h3>{field.label}</h3>
      {field.help && <p class="help">{field.help}</p>}
      {field.read && <p class="read">{field.read}</p>}
      {field.wrong && <p class="fault">{field.wrong.message} {field.wrong.way_out}</p>}
      {faults > 0 && <p class="fault">{words.sheet.faults(faults)}</p>}
      <div class="buttons">
        {pieces.length > 0 ? (
          <button type="button" aria-expanded={unfolded.value} onClick={() => (unfolded.value = !unfolded.value)}>
            {unfolded.value ? words.pieces.hide(pieces.length) : words.pieces.show(pieces.length)}
          </button>
        ) : (
          <p>{words.pieces.none}</p>
        )}
        <button type="button" onClick={add}>
          {words.pieces.add}
        </button>
      </div>
      <AddSet field={field} />
      {unfolded.value && (
        <ul class="piece-list" ref={list}>
          {pieces.map((piece, index) => (
            <li key={index} class={open.value === index ? "open" : undefined}>
              <PieceRow
                piece={piece}
                index={index}
                wrong={rows[index]?.some(({ wrong }) => wrong) ?? false}
                open={open.value === index}
                onToggle={() => (open.value = open.value === index ? -1 : index)}
              />
              {open.value === index && (
                <PieceEditor
                  fields={rows[index]}
                  ask={ask}
                  onRemove={() => remove(index)}
                  onDone={() => (open.value = -1)}
                />
              )}
            </li>
          ))}
        </ul>
      )}
      {unfolded.value && pieces.length > 6 && (
        <button type="button" class="wide" onClick={add}>
          {words.pieces.add}
        </button>
      )}
    </section>
  );
}
