import { useSignal } from "@preact/signals";
import { answer } from "../job/answer";
import { emptyJob, job } from "../job/job";
import { fieldIn } from "../job/lead";
import { shop } from "../job/shop";
import { chosenUnits } from "../job/units";
import { Recent } from "../kept/Recent";
import { openJob } from "../link/address";
import { offerUndo } from "../undo/undo";
import { go } from "../view/place";
import { lookAt } from "../view/look_at";
import { words } from "../words";
import { BARS, OTHER, TAPERS, UNKNOWN } from "./common";

type Entries = Readonly<Record<string, string>>;

function begin(entries: Entries): void {
  const before = job.value;
  openJob({ ...emptyJob(chosenUnits()), entries });
  offerUndo(before.invented ? words.demo.started : words.job.putAway, () => openJob(before));
}

/** Two questions, and the answer stands there: which taper, and the bar or another way. A shop with a bar is not asked again. */
export function StartView() {
  const taper = useSignal<Entries | null>(null);
  const asked = shop.value.entries["setting.bar_centres"] === undefined && shop.value.entries["setting.way"] === undefined;
  const pick = (entries: Entries) => {
    if (asked) {
      taper.value = entries;
      scrollTo(0, 0);
    } else begin(entries);
  };
  if (taper.value) {
    const chosen = taper.value;
    return (
      <section class="start" aria-label={words.start.heading}>
        <h2>{words.start.how}</h2>
        <div class="tiles">
          {BARS.map(({ label, entries }) => (
            <button key={label} type="button" onClick={() => begin({ ...chosen, ...entries })}>{words.start.bar(label)}</button>
          ))}
        </div>
        <h3>{words.start.otherWay}</h3>
        <Ways onPick={(way) => begin({ ...chosen, "setting.way": way })} />
        <button type="button" class="quiet" onClick={() => (taper.value = null)}>{words.start.back}</button>
      </section>
    );
  }
  return (
    <section class="start" aria-label={words.start.heading}>
      <p>{words.start.what}</p>
      <h2>{words.start.which}</h2>
      <div class="tiles">
        {TAPERS.map(({ label, entries }) => (
          <button key={label} type="button" onClick={() => pick(entries)}>{label}</button>
        ))}
      </div>
      <div class="tiles two">
        <button type="button" onClick={() => open(UNKNOWN, "taper.large_diameter")}>{words.start.measure}</button>
        <button type="button" onClick={() => open(OTHER, "taper.series")}>{words.start.other}</button>
      </div>
      <Recent />
    </section>
  );
}

/** These want entries at once: the screen that asks for them opens with the first in hand. */
function open(entries: Entries, first: string): void {
  begin(entries);
  lookAt(first, "job");
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
