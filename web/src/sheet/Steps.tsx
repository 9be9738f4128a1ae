import type { Step } from "../contract";
import { chosenUnits } from "../job/units";
import { words } from "../words";

export function Steps({ steps }: { readonly steps: readonly Step[] }) {
  if (steps.length === 0) return null;
  return (
    <section class="steps">
      <h3>{words.sheet.steps}</h3>
      <ol>
        {steps.map((step) => (
          <li key={step.id}>{step.text[chosenUnits()]}</li>
        ))}
      </ol>
    </section>
  );
}
