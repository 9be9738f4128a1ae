import { useSignal } from "@preact/signals";
import { openJob } from "../link/address";
import { decodeJob } from "../link/decode";
import { words } from "../words";
import type { Kept } from "./records";
import { remove, rename } from "./shelf";

export function KeptItem({ record }: { readonly record: Kept }) {
  const renaming = useSignal<string | null>(null);
  const open = () => {
    const { job, troubles } = decodeJob(record.hash);
    openJob(job, troubles);
  };
  const save = async (event: Event) => {
    event.preventDefault();
    const next = renaming.value?.trim();
    if (next) await rename(record.id, next);
    renaming.value = null;
  };
  if (renaming.value !== null) {
    return (
      <li>
        <form onSubmit={save} class="rename-form">
          <input
            aria-label={words.kept.name}
            value={renaming.value}
            autocomplete="off"
            onInput={(event) => (renaming.value = event.currentTarget.value)}
          />
          <div class="buttons">
            <button type="submit" class="strong">{words.kept.save}</button>
            <button type="button" onClick={() => (renaming.value = null)}>{words.kept.cancel}</button>
          </div>
        </form>
      </li>
    );
  }
  return (
    <li>
      <button type="button" class="kept-open" onClick={open}>
        <span class="kept-name">{record.name}</span>
        <span class="kept-date">{words.kept.on(record.kept_at.slice(0, 10))}</span>
      </button>
      <div class="buttons">
        <button type="button" aria-label={`${words.kept.rename}: ${record.name}`} onClick={() => (renaming.value = record.name)}>
          {words.kept.rename}
        </button>
        <button type="button" aria-label={`${words.kept.remove}: ${record.name}`} onClick={() => remove(record.id)}>
          {words.kept.remove}
        </button>
      </div>
    </li>
  );
}
