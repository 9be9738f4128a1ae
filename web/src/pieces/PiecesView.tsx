import { useSignal } from "@preact/signals";
import { useRef } from "preact/hooks";
import type { Field, Figure } from "../contract";
import { answer } from "../job/answer";
import { emptyPiece, insertPiece, job, removePiece } from "../job/job";
import { offerUndo } from "../undo/undo";
import { words } from "../words";
import { AddSet } from "./AddSet";
import { useEditorFocus } from "./editor_focus";
import { LineEntry } from "./LineEntry";
import { type Ask, PieceEditor } from "./PieceEditor";
import { PieceRow, pieceName } from "./PieceRow";

interface Props {
  readonly field: Field;
  readonly ask: Ask;
}

/** Fewer pieces than this are found without searching. */
const MANY = 10;

/** Places in the drawer of the pieces that figures of the job name. */
function usedPlaces(): ReadonlySet<number> {
  const figures = (answer.value?.sheet.stages ?? []).flatMap(({ figures = [] }): readonly Figure[] => figures);
  const pieces = figures.flatMap(({ value }) => (Array.isArray(value) ? value : [])) as { place?: unknown }[];
  return new Set(pieces.map((piece) => piece?.place).filter((place): place is number => typeof place === "number"));
}

/** The drawer: a line to type pieces in, then one line a piece; one of them open at a time for changing. */
export function PiecesView({ field, ask }: Props) {
  const open = useSignal(-1);
  const search = useSignal("");
  const list = useRef<HTMLUListElement>(null);
  const pieces = job.value.drawer;
  const rows = field.rows ?? [];
  const used = usedPlaces();
  const wanted = search.value.trim().toLowerCase();
  useEditorFocus(list, open.value);

  const add = () => {
    search.value = "";
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
  const shown = pieces
    .map((piece, index) => ({ piece, index }))
    .filter(({ piece }) => wanted === "" || [piece.name, piece.size, piece.measured].join(" ").toLowerCase().includes(wanted));

  return (
    <section class="pieces" data-field={field.id} aria-label={field.label}>
      <LineEntry />
      {field.wrong && <p class="fault">{field.wrong.message} {field.wrong.way_out}</p>}
      <p class="help">{pieces.length > 0 ? field.read : words.pieces.none}</p>
      {pieces.length > MANY && (
        <div class="field">
          <label for="piece-search">{words.pieces.search}</label>
          <input id="piece-search" type="search" value={search.value} onInput={(event) => (search.value = event.currentTarget.value)} />
        </div>
      )}
      <ul class="piece-list" ref={list}>
        {shown.map(({ piece, index }) => (
          <li key={index} data-piece={index} class={open.value === index ? "open" : undefined}>
            <PieceRow
              piece={piece}
              index={index}
              used={used.has(index)}
              wrong={rows[index]?.some(({ wrong }) => wrong) ?? false}
              open={open.value === index}
              onToggle={() => (open.value = open.value === index ? -1 : index)}
            />
            {open.value === index && (
              <PieceEditor fields={rows[index]} ask={ask} onRemove={() => remove(index)} onDone={() => (open.value = -1)} />
            )}
          </li>
        ))}
      </ul>
      <div class="buttons">
        <button type="button" onClick={add}>{words.pieces.add}</button>
      </div>
      <AddSet field={field} />
    </section>
  );
}
