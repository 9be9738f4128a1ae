import { useComputed, useSignal } from "@preact/signals";
import type { Field } from "../contract";
import { write, written } from "../job/job";
import { words } from "../words";
import { ticks } from "./several";

interface Props {
  readonly field: Field;
  readonly id: string;
  readonly describedBy: string | undefined;
}

/** Any number of many: one line says which, and unfolds to a list of boxes to tick. */
export function SeveralInput({ field, id, describedBy }: Props) {
  const open = useSignal(false);
  const text = useComputed(() => written(field.id)).value;
  const boxes = ticks(field, text);
  const picked = boxes.filter((box) => box.picked);
  const list = `${id}-list`;
  const put = (values: readonly { readonly value: string }[]) =>
    write(field.id, values.map(({ value }) => value).join(", "));
  return (
    <fieldset class="several" aria-describedby={describedBy}>
      <legend>{field.label}</legend>
      <button
        type="button"
        id={id}
        class="several-head"
        aria-expanded={open.value}
        aria-controls={open.value ? list : undefined}
        onClick={() => (open.value = !open.value)}
      >
        <span class="several-line">
          {words.several.picked(picked.map(({ label }) => label), boxes.length)}
        </span>
        <span class="chevron" aria-hidden="true" />
      </button>
      {open.value && (
        <div class="several-list" id={list}>
          {boxes.map((box) => (
            <label key={box.value} class="check">
              <input
                type="checkbox"
                checked={box.picked}
                onChange={() => put(boxes.filter((one) => (one === box) !== one.picked))}
              />
              <span>{box.known ? box.label : words.sheet.otherChoice(box.label)}</span>
            </label>
          ))}
          <div class="buttons">
            <button type="button" onClick={() => put(boxes.filter(({ known }) => known))}>
              {words.several.all}
            </button>
            <button type="button" onClick={() => put([])}>
              {field.default ? words.several.only(field.default) : words.several.none}
            </button>
            <button type="button" class="strong" onClick={() => (open.value = false)}>
              {words.pieces.done}
            </button>
          </div>
        </div>
      )}
      {field.default && text === "" && <p class="if-empty">{words.several.ifNone(field.default)}</p>}
    </fieldset>
  );
}
