import { useSignal } from "@preact/signals";
import type { Field, Piece } from "../contract";
import { job } from "../job/job";
import { Choice } from "../parts/Choice";
import { words } from "../words";
import { addSet } from "./sets";

/** Customary sets, put into the drawer by choosing one, as pieces not measured yet. */
export function AddSet({ field }: { readonly field: Field }) {
  const choices = field.choices ?? [];
  const busy = useSignal(false);
  const said = useSignal<{ readonly text: string; readonly of: readonly Piece[] } | null>(null);
  const say = (text: string) => (said.value = { text, of: job.value.drawer });
  const add = async (picked: string) => {
    const set = choices.find(({ value }) => value === picked);
    if (!set || busy.value) return;
    busy.value = true;
    say(words.sets.adding);
    say(await addSet(field, set));
    busy.value = false;
  };
  if (choices.length === 0) return null;
  return (
    <div class="add-set">
      <Choice id={`add-set-${field.id}`} label={words.sets.label} choices={choices} chosen="" said={words.sheet.choose} disabled={busy.value} onChoose={(value) => void add(value)} />
      <p role="status" class="said">{said.value?.of === job.value.drawer ? said.value.text : ""}</p>
    </div>
  );
}
