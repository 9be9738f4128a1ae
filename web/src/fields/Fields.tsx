import { signal } from "@preact/signals";
import type { Field } from "../contract";
import { words } from "../words";
import { FieldView } from "./FieldView";
import { type Group, grouped } from "./grouped";

/** The groups that the person has unfolded, by stage and name. */
const unfolded = signal<ReadonlySet<string>>(new Set());

interface Props {
  readonly stage: string;
  readonly fields: readonly Field[];
}

/** What a stage asks: first what every job needs, then each group folded under its name. */
export function Fields({ stage, fields }: Props) {
  const { plain, groups } = grouped(fields);
  return (
    <>
      <div class="fields">{plain.map((field) => <FieldView key={field.id} field={field} />)}</div>
      {groups.map((group) => <Folded key={group.name} stage={stage} group={group} />)}
    </>
  );
}

function Folded({ stage, group }: { readonly stage: string; readonly group: Group }) {
  const key = `${stage} ${group.name}`;
  const open = unfolded.value.has(key) || group.faulty;
  const turn = () => {
    const next = new Set(unfolded.value);
    if (!next.delete(key)) next.add(key);
    unfolded.value = next;
  };
  return (
    <div class="group">
      <button type="button" class="group-head" aria-expanded={open} onClick={turn}>
        <span>
          {group.name} <span class="group-said">{words.fields.said(group.said, group.fields.length)}</span>
        </span>
        <span class="chevron" aria-hidden="true" />
      </button>
      {open && (
        <div class="fields">{group.fields.map((field) => <FieldView key={field.id} field={field} />)}</div>
      )}
    </div>
  );
}
