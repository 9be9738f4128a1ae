import { useSignal } from "@preact/signals";
import { fullAddress, openJob } from "../link/address";
import { decodeJob } from "../link/decode";
import { words } from "../words";
import type { Kept } from "./records";
import { duplicate, moveUp, remove, rename, replace } from "./shelf";

export function KeptItem({ record }: { readonly record: Kept }) {
  const renaming = useSignal<string | null>(null);
  const more = useSignal(false);
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
  const act = (label: string, what: () => unknown) => (
    <button
      type="button"
      aria-label={`${label}: ${record.name}`}
      onClick={() => {
        more.value = false;
        void what();
      }}
    >
      {label}
    </button>
  );
  return (
    <li>
      <div class="kept-row">
        <button type="button" class="kept-open" onClick={open}>
          <span class="kept-name">{record.name}</span>
          <span class="kept-date">{words.kept.on(record.kept_at.slice(0, 10))}</span>
        </button>
        <button type="button" class="kept-more" aria-expanded={more.value} aria-label={`${words.kept.more}: ${record.name}`} onClick={() => (more.value = !more.value)}>
          ⋯
        </button>
      </div>
      {more.value && (
        <div class="buttons">
          {act(words.kept.replace, () => replace(record.id, fullAddress().replace(/^[^#]*#/, "")))}
          {act(words.kept.rename, () => (renaming.value = record.name))}
          {act(words.kept.duplicate, () => duplicate(record.id))}
          {act(words.kept.up, () => moveUp(record.id))}
          {act(words.kept.remove, () => remove(record.id))}
        </div>
      )}
    </li>
  );
}
