import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { fullAddress } from "../link/address";
import { answer } from "../job/answer";
import { words } from "../words";
import { KeptItem } from "./KeptItem";
import { LastJobs } from "./LastJobs";
import { LostList } from "./LostList";
import { keptName } from "./in_hand";
import { keep, openShelf, refusal, shelf } from "./shelf";

/** Fewer than these are found without searching; more than so many are not drawn at once. */
const MANY = 8;
const MOST_SHOWN = 60;

/** Named set-ups kept in this browser, and the way to keep the present one. */
export function KeptList() {
  const name = useSignal("");
  const said = useSignal("");
  const search = useSignal("");
  const sheet = answer.value?.sheet;
  const suggestion = sheet?.glance?.name || (sheet?.stages.find(({ line }) => line)?.line ?? "");
  const submit = async (event: Event) => {
    event.preventDefault();
    // A second tap may come once the first has emptied the name: this job has one already.
    const chosen = name.value.trim() || keptName() || suggestion || words.job.heading;
    if (!(await keep(chosen, fullAddress().replace(/^[^#]*#/, "")))) return;
    name.value = "";
    said.value = words.kept.kept(chosen);
  };
  // Cleared or changed since it was last looked at: asked, not remembered.
  useEffect(() => void openShelf(), []);
  const { records, foreign } = shelf.value;
  const wanted = search.value.trim().toLowerCase();
  const shown = records.filter((one) => one.name.toLowerCase().includes(wanted));
  return (
    <section class="kept" aria-label={words.kept.heading}>
      <h2>{words.kept.heading}</h2>
      <form class="keep-form" onSubmit={submit}>
        <label for="keep-name">{words.kept.name}</label>
        <div class="input-row">
          <input
            id="keep-name"
            autocomplete="off"
            enterkeyhint="done"
            value={name.value}
            placeholder={suggestion}
            onInput={(event) => (name.value = event.currentTarget.value)}
          />
          <button type="submit" class="strong">
            {words.kept.keep}
          </button>
        </div>
      </form>
      <p role="status" class="said">{said.value}</p>
      <LostList />
      {refusal.value && <p class="fault">{refusal.value}</p>}
      {records.length === 0 && <p>{words.kept.none}</p>}
      {records.length > MANY && (
        <div class="field">
          <label for="kept-search">{words.kept.search}</label>
          <input id="kept-search" type="search" value={search.value} onInput={(event) => (search.value = event.currentTarget.value)} />
        </div>
      )}
      <ul class="kept-list">
        {shown.slice(0, MOST_SHOWN).map((record) => (
          <KeptItem key={record.id} record={record} />
        ))}
      </ul>
      {shown.length > MOST_SHOWN && <p>{words.kept.shown(MOST_SHOWN, shown.length)}</p>}
      {foreign.length > 0 && <p>{words.kept.foreign(foreign.length)}</p>}
      <p class="help">{words.kept.evict}</p>
      <LastJobs />
    </section>
  );
}
