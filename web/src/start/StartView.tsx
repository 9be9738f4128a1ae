import { useSignal } from "@preact/signals";
import { answer } from "../job/answer";
import { emptyJob, job } from "../job/job";
import { fieldIn } from "../job/lead";
import { shop } from "../job/shop";
import { chosenUnits } from "../job/units";
import { Recent } from "../kept/Recent";
import { Worded } from "../parts/Worded";
import { openJob } from "../link/address";
import { offerUndo } from "../undo/undo";
import { go } from "../view/place";
import { lookAt } from "../view/look_at";
import { words } from "../words";
import { BARS, OTHER, TAPERS, UNKNOWN_SHANK, UNKNOWN_SOCKET } from "./common";

type Entries = Readonly<Record<string, string>>;

/** A taper picked; `first` names the entry to be filled in next, where it wants some at once. */
interface Picked {
  readonly entries: Entries;
  readonly first: string;
}

function begin({ entries, first }: Picked): void {
  const before = job.value;
  openJob({ ...emptyJob(chosenUnits()), entries });
  if (first) lookAt(first, "job");
  offerUndo(before.invented ? words.demo.started : words.job.putAway, () => openJob(before), before.invented);
}

/** Two questions, and the answer stands there: which taper, and the bar or another way. A shop with a bar is not asked again. */
export function StartView() {
  const taper = useSignal<Picked | null>(null);
  const asked = shop.value.entries["setting.bar_centres"] === undefined && shop.value.entries["setting.way"] === undefined;
  const pick = (entries: Entries, first = "") => {
    if (asked) {
      taper.value = { entries, first };
      scrollTo(0, 0);
    } else begin({ entries, first });
  };
  if (taper.value) {
    const chosen = taper.value;
    return (
      <section class="start" aria-label={words.start.heading}>
        <h2>{words.start.how}</h2>
        <div class="tiles">
          {BARS.map(({ label, entries }) => (
            <button key={label} type="button" onClick={() => begin({ ...chosen, entries: { ...chosen.entries, ...entries } })}>{words.start.bar(label)}</button>
          ))}
        </div>
        <h3>{words.start.otherWay}</h3>
        <Ways onPick={(way) => begin({ ...chosen, entries: { ...chosen.entries, "setting.way": way } })} />
        <button type="button" class="quiet" onClick={() => (taper.value = null)}>{words.start.back}</button>
      </section>
    );
  }
  return (
    <section class="start" aria-label={words.start.heading}>
      <Worded text={words.start.what} />
      <h2>{words.start.which}</h2>
      <div class="tiles">
        {TAPERS.map(({ label, entries }) => (
          <button key={label} type="button" onClick={() => pick(entries)}>{label}</button>
        ))}
      </div>
      <button type="button" class="wide" onClick={() => pick(OTHER, "taper.series")}>{words.start.other}</button>
      <h2>{words.start.unknown}</h2>
      <div class="tiles two">
        <button type="button" onClick={() => pick(UNKNOWN_SHANK, "taper.large_diameter")}>{words.start.shank}</button>
        <button type="button" onClick={() => pick(UNKNOWN_SOCKET, "taper.large_diameter")}>{words.start.socket}</button>
      </div>
      <Recent />
    </section>
  );
}

function Ways({ onPick }: { readonly onPick: (way: string) => void }) {
  const sheet = answer.value?.sheet;
  const field = sheet && fieldIn(sheet, "setting.way");
  if (!field) return <button type="button" onClick={() => go("change")}>{words.dock.change}</button>;
  return (
    <ul class="plain-list">
      {(field.choices ?? []).map(({ value, label }) => (
        <li key={value}><button type="button" class="wide" onClick={() => onPick(value)}>{label}</button></li>
      ))}
    </ul>
  );
}
