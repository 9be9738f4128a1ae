import { useSignal } from "@preact/signals";
import type { ComponentChild } from "preact";
import type { Field } from "../contract";
import { job, setRows } from "../job/job";
import { offerUndo } from "../undo/undo";
import { words } from "../words";

interface Props {
  readonly field: Field;
  readonly ask: (field: Field) => ComponentChild;
}

/** Rows of what was seen: the kind of a new one is a large button each, its fields come with the next answer. */
export function RowsView({ field, ask }: Props) {
  const rows = job.value.observations ?? [];
  const more = useSignal(false);
  const add = (way: string) => {
    more.value = false;
    setRows([...(job.value.observations ?? []), { way }]);
  };
  const remove = (index: number) => {
    const before = job.value.observations ?? [];
    setRows(before.filter((_, at) => at !== index));
    offerUndo(words.rows.removed, () => setRows(before));
  };
  return (
    <section class="rows broad" data-field={field.id} aria-label={field.label}>
      {rows.map((_, index) => (
        <div key={index} class="one-row">
          <div class="fields">{(field.rows?.[index] ?? []).map(ask)}</div>
          <button type="button" class="quiet" onClick={() => remove(index)}>{words.rows.remove}</button>
        </div>
      ))}
      {rows.length === 0 || more.value ? (
        <div class="tiles two">
          {(field.choices ?? []).map(({ value, label }) => (
            <button key={value} type="button" onClick={() => add(value)}>{label}</button>
          ))}
        </div>
      ) : (
        <button type="button" onClick={() => (more.value = true)}>{words.rows.more}</button>
      )}
    </section>
  );
}
