import type { Figure, Sheet } from "../contract";
import { words } from "../words";
import { faultyIds } from "../job/faults";
import { Picture } from "../parts/Picture";
import { pick, Value } from "../parts/Value";

/** The answers that matter at the machine, from all stages, on the first screen. */
export function Card({ sheet }: { readonly sheet: Sheet }) {
  // A drawing found beside a lead figure shows what to do with it, so it comes along.
  const leads = sheet.stages.flatMap(({ figures = [] }) =>
    figures.some(({ lead }) => lead) ? figures.filter(({ lead, drawing }) => lead || drawing) : [],
  );
  const first = leads.find(isNumber);
  const others = leads.filter((figure) => figure !== first);
  const dangers = sheet.stages.flatMap((stage) => (stage.cautions ?? []).filter(({ level }) => level === "danger"));
  const lines = sheet.stages.filter(({ line }) => line);
  const faulty = faultyIds(sheet).size > 0;
  if (lines.length === 0 && leads.length === 0) return null;
  return (
    <section class="card" aria-label={words.sheet.card}>
      <p class="card-first-line">{lines[0]?.line}</p>
      {first && (
        <div class="card-lead" data-lead={first.id}>
          <span class="figure-label">{first.label}</span>
          <Value figure={first} large />
        </div>
      )}
      <div class="card-rest">
        {others.map((figure) => (
          <div key={figure.id} class={figure.drawing ? "card-drawn" : "card-row"} data-lead={figure.id}>
            <span class="figure-label">{figure.label}</span>
            <Value figure={figure} />
            <Picture text={figure.drawing} small />
          </div>
        ))}
        {first && <Picture text={first.drawing} small />}
      </div>
      {faulty && <p class="help">{words.sheet.held}</p>}
      {dangers.map(({ text }) => (
        <p key={text} class="caution danger">
          <strong>{words.sheet.danger}:</strong> {text}
        </p>
      ))}
    </section>
  );
}

function isNumber(figure: Figure): boolean {
  return typeof figure.value === "number" && pick(figure.shown) !== "";
}
