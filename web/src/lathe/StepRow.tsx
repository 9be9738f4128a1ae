import type { Step } from "../contract";
import { pick } from "../parts/Value";
import { Worded } from "../parts/Worded";
import { words } from "../words";
import { current, steps } from "./lathe";
import { nextCut } from "../job/renew";
import { markOf, stand, tick } from "../job/marks";

/** A step with its tick; a touch on the words takes it in hand, on the box ticks it. */
export function StepRow({ step, large }: { readonly step: Step; readonly large?: boolean }) {
  const mark = markOf(step);
  const done = mark === "done";
  const turn = () => {
    if (!done && nextCut(step)) return;
    tick(step, !done);
    const next = steps.value[steps.value.indexOf(step) + 1];
    if (!done && next && !large) stand(next.id);
  };
  return (
    <div class={`step ${mark}${large ? " large" : ""}`}>
      <label class="tick">
        <input type="checkbox" checked={done} onChange={turn} aria-label={words.lathe.tick(pick(step.text))} />
        <span aria-hidden="true">{done ? "✓" : steps.value.indexOf(step) + 1}</span>
      </label>
      {large || (step === current.value && mark !== "changed") ? (
        <Worded key={step.id} class="step-text" text={pick(step.text)} />
      ) : (
        <button type="button" class="step-text" aria-expanded={step === current.value} onClick={() => stand(step.id)}>
          {pick(step.text)}
          {mark === "changed" && <span class="step-changed">{words.lathe.changed}</span>}
        </button>
      )}
      {large && mark === "changed" && <span class="step-changed">{words.lathe.changed}</span>}
    </div>
  );
}
