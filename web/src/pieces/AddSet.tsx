import { useSignal } from "@preact/signals";
import type { Field, Piece } from "../contract";
import { job } from "../job/job";
import { words } from "../words";
import { addSet } from "./sets";

/** Customary sets, put into the drawer in one tap as pieces not measured yet. */
export function AddSet({ field }: { readonly field: Field }) {
  const choices = field.choices ?? [];
  const picked = useSignal("");
  const busy = useSignal(false);
  const said = useSignal<{ readonly text: string; readonly of: readonly Piece[] } | null>(null);
  const id = `add-set-${field.id}`;
  const set = choices.find(({ value }) => value === picked.value) ?? choices[0];
  if (!set) return null;
  const say = (text: string) => (said.value = { text, of: job.value.drawer });
  const add = async () => {
    if (busy.value) return;
    busy.value = true;
    say(words.sets.adding);
    say(await addSet(field, set));
    busy.value = false;
  };
  return (
    <div class="add-set">
      <label for={id}>{words.sets.label}</label>
      <div class="input-row">
        <select id={id} value={set.value} onChange={(event) => (picked.value = event.currentTarget.value)}>
          {choices.map(({ value, label }) => (
            <option key={value} value={value}>
              {label}
            </option>
          ))}
        </select>
        <button type="button" aria-disabled={busy.value} onClick={add}>
          {words.sets.add}
        </button>
      </div>
      <p role="status" class="said">{said.value?.of === job.value.drawer ? said.value.text : ""}</p>
    </div>
  );
}
