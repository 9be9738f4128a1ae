import { NextPart } from "../begin/NextPart";
import type { Caution, Field, Figure, Sheet, Step } from "../contract";
import { FieldView } from "../fields/FieldView";
import { answer } from "../job/answer";
import { fieldIn, figureIn } from "../job/lead";
import { Picture } from "../parts/Picture";
import { Value } from "../parts/Value";
import { nextCut } from "../job/renew";
import { inHand, stackInHand } from "../view/in_hand";
import { go } from "../view/place";
import { words } from "../words";
import { Cautions } from "../sheet/Cautions";

function cautionsOf(sheet: Sheet, step: Step): readonly Caution[] {
  const all = [...(sheet.cautions ?? []), ...sheet.stages.flatMap(({ cautions = [] }) => cautions)];
  const ids = new Set(step.cautions ?? []);
  const named = all.filter(({ id }) => id !== undefined && id !== "" && ids.has(id));
  return named.filter((one, at) => named.findIndex(({ id }) => id === one.id) === at);
}

const renews = (step: Step) => Object.keys(step.renews ?? {}).length > 0;

/** Where the set-up is kept, and how the next part begins from it. */
function Keeping() {
  return (
    <>
      <button type="button" class="wide strong" onClick={() => go("kept")}>{words.kept.keep}</button>
      <NextPart />
    </>
  );
}

/** What belongs to the step in hand: its hazards, the fields to fill in now, the figures and the picture. */
export function StepBody({ step }: { readonly step: Step }) {
  const sheet = answer.value?.sheet;
  if (!sheet) return null;
  const fields = (step.asks ?? []).map((id) => fieldIn(sheet, id)).filter((one): one is Field => one !== null);
  // The bar above shows the number in hand and its pieces already.
  const shown = (step.shows ?? []).filter((id) => id !== inHand.value && id !== stackInHand.value);
  const figures = shown.map((id) => figureIn(sheet, id)).filter((one): one is Figure => one !== null);
  return (
    <div class="step-body">
      <Cautions cautions={cautionsOf(sheet, step)} />
      {fields.length > 0 && <div class="fields">{fields.map((field) => <FieldView key={field.id} field={field} />)}</div>}
      {figures.map((figure) => (
        <p key={figure.id} class="glance-row" data-figure={figure.id}>
          <span>{figure.label}</span> <Value figure={figure} />
        </p>
      ))}
      <Picture text={step.drawing} />
      {renews(step) && <button type="button" class="wide" onClick={() => nextCut(step)}>{words.lathe.renew}</button>}
      {step.phase === "keep" && <Keeping />}
    </div>
  );
}
