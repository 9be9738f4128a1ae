import { answer } from "../job/answer";
import { job } from "../job/job";
import { leadOf } from "../job/lead";
import { phasesOf, routeOf } from "../job/route";
import { Picture } from "../parts/Picture";
import { pick, Value } from "../parts/Value";
import { words } from "../words";

/** The job on one sheet of paper: what to set, the steps to tick, the picture, what was found. */
export function PaperCard({ name }: { readonly name: string }) {
  const sheet = answer.value?.sheet;
  if (!sheet) return null;
  const lead = leadOf(sheet);
  const leads = sheet.stages.flatMap(({ figures = [] }) => figures.filter((one) => one.lead && one !== lead.figure && pick(one.shown)));
  return (
    <article>
      <header>
        <h1>{pick(lead.title)}</h1>
        <p class="paper-name">{words.paper.name} <span>{name}</span> {new Date().toLocaleDateString()}</p>
      </header>
      {job.value.invented && <p><b>{words.demo.mark}</b></p>}
      <div class="paper-top">
        <div>
          {lead.figure && (
            <p class="paper-lead">
              {pick(lead.label)} <Value figure={lead.figure} large />
            </p>
          )}
          <p><b>{lead.words.map(pick).join(", ")}</b></p>
          {lead.stack && <p class="paper-stack"><b>{pick(lead.stack.shown)}</b></p>}
          {lead.rows.map(({ id, label, text }) => <p key={id}>{pick(label)}: <b>{pick(text)}</b></p>)}
          {leads.map((figure) => <p key={figure.id}>{figure.label}: <b>{pick(figure.shown)}</b></p>)}
        </div>
        {lead.pictures.map((text) => <Picture key={text} text={text} />)}
      </div>
      <Danger />
      <div class="paper-steps">
        {phasesOf(routeOf(sheet)).map((phase, at) => (
          <section key={at}>
            <h2>{words.lathe.phase(phase.name)}</h2>
            <ul>
              {phase.steps.map((step) => <li key={step.id}>{pick(step.text)}</li>)}
            </ul>
          </section>
        ))}
      </div>
      <ul class="paper-lines">
        {sheet.stages.filter(({ line }) => line).map(({ id, title, line }) => <li key={id}><b>{title}:</b> {line}</li>)}
      </ul>
      <p class="paper-notes">{words.paper.notes}</p>
    </article>
  );
}

function Danger() {
  const [caution] = answer.value?.sheet.cautions ?? [];
  return caution ? <p class="paper-danger"><b>{words.sheet.danger}:</b> {caution.text}</p> : null;
}
