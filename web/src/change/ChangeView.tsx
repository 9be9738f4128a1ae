import { signal } from "@preact/signals";
import type { Field, Stage } from "../contract";
import { Fields } from "../fields/Fields";
import { answer } from "../job/answer";
import { leadOf } from "../job/lead";
import { redo, redoable, undoEntry, undoable } from "../job/past";
import { Problems } from "../sheet/Problems";
import { go } from "../view/place";
import { words } from "../words";
import { isOfShop } from "../job/belongs";

/** Stages that the person has unfolded or folded here by hand. */
const byHand = signal<Readonly<Record<string, boolean>>>({});

/** What this job asks, and no more: two fields to a row, what stays at its default in one line. */
export function ChangeView() {
  const sheet = answer.value?.sheet;
  if (!sheet) return <p class="waiting">{words.status.waiting}</p>;
  const lead = leadOf(sheet).stage?.id;
  return (
    <section class="change" aria-label={words.change.heading}>
      <div class="buttons">
        <button type="button" disabled={!undoable.value} onClick={undoEntry}>{words.change.undo}</button>
        <button type="button" disabled={!redoable.value} onClick={redo}>{words.change.redo}</button>
      </div>
      <Problems problems={sheet.problems} />
      {sheet.stages.map((stage, at) => (
        <StageFields key={stage.id} stage={stage} usual={at === 0 || stage.id === lead} />
      ))}
      <FromShop fields={sheet.stages.flatMap(({ fields = [] }) => fields.filter(isOfShop))} />
    </section>
  );
}

function StageFields({ stage, usual }: { readonly stage: Stage; readonly usual: boolean }) {
  const fields = (stage.fields ?? []).filter((field) => !isOfShop(field));
  if (fields.length === 0) return null;
  const faulty = fields.some(({ wrong }) => wrong);
  const open = faulty || (byHand.value[stage.id] ?? usual);
  const filled = fields.filter(({ value }) => value).length;
  const panel = `change-${stage.id}`;
  return (
    <section class="change-stage" data-stage={stage.id}>
      <h2>
        <button type="button" class="change-head" aria-expanded={open} aria-controls={open ? panel : undefined} onClick={() => (byHand.value = { ...byHand.value, [stage.id]: !open })}>
          <span>{stage.title}</span> <span class="group-said">{words.fields.said(filled, fields.length)}</span>
          <span class="chevron" aria-hidden="true" />
        </button>
      </h2>
      {open && <div id={panel}><Fields stage={stage.id} fields={fields} /></div>}
    </section>
  );
}

/** What is taken from the shop, in one line that leads there. */
function FromShop({ fields }: { readonly fields: readonly Field[] }) {
  const said = fields.filter(({ value, kind }) => value && kind !== "pieces").map(({ label, value }) => `${label}: ${value}`);
  return (
    <button type="button" class="quiet" onClick={() => go("shop")}>
      {words.change.shop(said.slice(0, 4))}
    </button>
  );
}
