import { useSignal } from "@preact/signals";
import { NextPart } from "../begin/NextPart";
import type { Stage } from "../contract";
import { answer, overtaken } from "../job/answer";
import { faultsOf, faultyIds } from "../job/faults";
import { type Lead, leadOf } from "../job/lead";
import { Picture } from "../parts/Picture";
import { Steady } from "../parts/Steady";
import { pick } from "../parts/Value";
import { isWide } from "../view/open";
import { go } from "../view/place";
import { inSign } from "../view/sign";
import { words } from "../words";

/** The kept job at a glance; beneath the first screen a line for every stage. */
export function CardView() {
  const sheet = answer.value?.sheet;
  if (!sheet || overtaken.value) return <p class="waiting">{words.status.waiting}</p>;
  const lead = leadOf(sheet);
  const faulty = faultyIds(sheet).size > 0;
  return (
    <>
      <section class="glance" aria-label={words.sheet.card}>
        <Steady hold={faulty}>
          <Stack lead={lead} />
          <Pictures lead={lead} />
          {lead.rows.map(({ id, label, text }) => (
            <p key={id} class="glance-row" data-row={id}>
              <span>{pick(label)}</span> <b>{pick(text)}</b>
            </p>
          ))}
        </Steady>
        <Danger lead={lead} />
        <NextPart taken />
      </section>
      {!isWide.value && <StageLines stages={sheet.stages} />}
    </>
  );
}

export function Stack({ lead }: { readonly lead: Lead }) {
  const { stack } = lead;
  const text = pick(stack?.shown);
  if (!stack || !text) return null;
  return (
    <p class="glance-stack" data-row={stack.id}>
      <span>{words.card.stack}</span> <b>{text}</b>
    </p>
  );
}

/** From above, or the stack: a tap changes between them. */
function Pictures({ lead }: { readonly lead: Lead }) {
  const at = useSignal(0);
  const { pictures } = lead;
  if (pictures.length === 0) return null;
  const shown = at.value % pictures.length;
  if (pictures.length === 1) return <Picture text={pictures[0]} />;
  return (
    <button type="button" class="glance-picture" onClick={() => (at.value = shown + 1)}>
      <Picture text={pictures[shown]} />
      <span class="unseen">{words.card.otherPicture(shown + 1, pictures.length)}</span>
      <span class="dots" aria-hidden="true">
        {pictures.map((_, place) => <i key={place} class={place === shown ? "on" : undefined} />)}
      </span>
    </button>
  );
}

function Danger({ lead }: { readonly lead: Lead }) {
  if (!lead.danger) return null;
  return (
    <p class="caution danger">
      <strong>{words.sheet.danger}:</strong> {lead.danger.text}
    </p>
  );
}

/** One line a stage, its answer; each opens its figures with their working. */
export function StageLines({ stages, open = "" }: { readonly stages: readonly Stage[]; readonly open?: string }) {
  return (
    <ul class="stage-lines">
      {stages.map((stage) => {
        const faults = faultsOf(stage);
        return (
          <li key={stage.id} data-stage={stage.id}>
            <button type="button" class="stage-head" aria-current={stage.id === open ? "true" : undefined} onClick={() => go("stage", stage.id)}>
              <span class="stage-title">{stage.title}</span>
              <span class="stage-line">{inSign(stage.line ?? "")}</span>
              {faults > 0 && <span class="mark-fault">{words.sheet.faults(faults)}</span>}
            </button>
          </li>
        );
      })}
    </ul>
  );
}
