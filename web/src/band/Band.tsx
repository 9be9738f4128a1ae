import { useEffect, useRef } from "preact/hooks";
import { useSignal } from "@preact/signals";
import type { Figure } from "../contract";
import { answer, overtaken } from "../job/answer";
import { fieldIn, figureIn, type Lead, leadOf } from "../job/lead";
import { chosenUnits, switchUnits } from "../job/units";
import { pick, pickOther, splitNumber } from "../parts/Value";
import { useSteady } from "../parts/Steady";
import { go, place } from "../view/place";
import { inHand, stackInHand } from "../view/in_hand";
import { lookAt } from "../view/look_at";
import { words } from "../words";

/** How long nothing may have changed before the answer is said aloud once [ms]. */
const QUIET = 1200;

/** A number of more letters than this is a little smaller, or its unit would have to go beneath it. */
const LONG = 6;

/** The number in force, in the same place on every screen: large on the card, a bar elsewhere. */
export function Band() {
  const sheet = answer.value?.sheet;
  const lead = sheet ? leadOf(sheet) : null;
  const step = place.value === "lathe" && sheet ? figureIn(sheet, inHand.value) : null;
  const stack = step && sheet ? figureIn(sheet, stackInHand.value) : null;
  // Of what was typed before the core has started there is no number yet.
  // Nor has a job that is only being begun: what stood there was the last one's.
  const begun = place.value !== "start";
  const figure = overtaken.value || !begun ? null : (step ?? lead?.figure ?? null);
  const [number, unit] = splitNumber(pick(figure?.shown));
  const plusMinus = pick(figure?.plus_minus_shown);
  const other = pickOther(figure?.shown);
  // The unit stands above it already.
  const give = unit.trim() ? plusMinus.replace(unit, "") : plusMinus;
  const label = step ? step.label : pick(lead?.label);
  const home = place.value === "card";
  return (
    <header class={home ? "band home" : "band"} data-lead={figure?.id} data-unchecked={answer.value?.unchecked}>
      <h1 class="unseen">{words.name}</h1>
      <div class="band-top">
        <p class="band-title">{begun ? pick(lead?.title) || words.name : words.start.heading}</p>
        <UnitsButton />
        <button type="button" class="band-button menu-button" aria-label={words.menu.button} aria-pressed={place.value === "more"} onClick={() => go(place.value === "more" ? "card" : "more")}>
          <span class="bars" aria-hidden="true" />
        </button>
      </div>
      {figure ? (
        <button type="button" class="band-number" onClick={() => (home && lead?.stage ? go("stage", lead.stage.id) : go("card"))}>
          <span class="unseen">{home ? words.band.open(label) : words.band.home(label)}</span>
          <span class={number.length > LONG ? "number long" : "number"}>{number}</span>{" "}
          <span class="band-beside">
            <span class="band-unit">{unit.trim()}</span>
            {give && <span class="band-give">{give}</span>}
            {other && <span class="band-other">{other}</span>}
          </span>
        </button>
      ) : (
        begun && <Wanted lead={lead} />
      )}
      <p class="band-words" ref={useSteady<HTMLParagraphElement>(begun && !figure)}>
        {(overtaken.value || !begun ? [] : saidBeside(step, stack, lead)).map((text) => <b key={text}>{text}</b>)}
      </p>
      <Said text={figure ? `${label}: ${pick(figure.shown)}` : ""} />
    </header>
  );
}

/** Under the number: what it is in this step, or where and which way it is set; that it is done, once it is. */
function saidBeside(step: Figure | null, stack: Figure | null, lead: Lead | null): readonly string[] {
  // The pieces belong to the number beside them, or else are named for what they are.
  const named = stack && step && !/stack/i.test(step.label) ? `${stack.label}: ` : "";
  const where = lead && step?.id === lead.figure?.id ? lead.words.map(pick) : [step?.label ?? ""];
  if (step) return [...where, stack ? named + pick(stack.shown) : ""].filter(Boolean);
  if (!lead) return [];
  if (lead.done) return [words.band.done];
  return lead.words.length > 0 ? lead.words.map(pick) : [pick(lead.label)];
}

function UnitsButton() {
  const units = chosenUnits();
  const other = units === "mm" ? "inch" : "mm";
  return (
    <button type="button" class="band-button units-button" aria-label={words.units.button(units, other)} onClick={() => switchUnits(other)}>
      {words.units[units]}
    </button>
  );
}

/** Where the number stands, a dash that leads to what is missing: the place never means anything else. */
function Wanted({ lead }: { readonly lead: Lead | null }) {
  const wants = lead?.wants ?? null;
  const sheet = answer.value?.sheet;
  const open = () => {
    if (!wants?.wrong) return go("start");
    lookAt(wants.id, sheet && fieldIn(sheet, wants.id) ? wants.belongs : "shop");
  };
  return (
    <button type="button" class="band-number wanted" onClick={open} disabled={!sheet || overtaken.value}>
      <span class="number">—</span>
      <span class="band-beside">{!sheet || overtaken.value ? words.status.soon : wants?.wrong ? words.band.mend(wants.label) : words.band.begin}</span>
    </button>
  );
}

/** The answer for who cannot see it: once, when nothing has changed for a moment. */
function Said({ text }: { readonly text: string }) {
  const said = useSignal("");
  // What the page opens with is read with the page; what it changes to is said.
  const known = useRef("");
  useEffect(() => {
    if (known.current === "") known.current = text;
    if (text === known.current) return;
    const due = setTimeout(() => (said.value = known.current = text), QUIET);
    return () => clearTimeout(due);
  }, [text]);
  return <p class="unseen" role="status">{said.value}</p>;
}
