import type { Stage } from "../contract";
import { Fields } from "../fields/Fields";
import { Steady, useSteady } from "../parts/Steady";
import { words } from "../words";
import { Cautions } from "./Cautions";
import { faultsOf } from "../job/faults";
import { FigureView } from "./FigureView";
import { isOpen, setOpen } from "../view/open";
import { Picture } from "../parts/Picture";
import { Steps } from "./Steps";

/** One step of the job: folded it is its one-line answer, open it asks, answers, and shows how. */
export function StageView({ stage }: { readonly stage: Stage }) {
  const open = isOpen(stage.id);
  const faults = faultsOf(stage);
  const grave = (stage.cautions ?? []).filter(({ level }) => level !== "note").length;
  const panel = `stage-${stage.id}`;
  const head = useSteady<HTMLButtonElement>(faults > 0);
  return (
    <section class={open ? "stage open" : "stage"} data-stage={stage.id}>
      <h2>
        <button
          type="button"
          class="stage-head"
          ref={head}
          aria-expanded={open}
          aria-controls={open ? panel : undefined}
          onClick={() => setOpen(stage.id, !open)}
        >
          <span class="stage-title">{stage.title}</span>
          <span class="stage-line">{stage.line}</span>
          {(faults > 0 || grave > 0) && (
            <span class="stage-marks">
              {faults > 0 && <span class="mark-fault">{words.sheet.faults(faults)}</span>}
              {grave > 0 && <span>{words.sheet.cautionCount(grave)}</span>}
            </span>
          )}
          <span class="chevron" aria-hidden="true" />
        </button>
      </h2>
      {open && <StageBody stage={stage} id={panel} />}
    </section>
  );
}

function StageBody({ stage, id }: { readonly stage: Stage; readonly id: string }) {
  const figures = stage.figures ?? [];
  const first = figures.filter(({ lead, value }) => lead && typeof value === "number");
  const others = figures.filter((figure) => !first.includes(figure));
  const ordered = [...others.filter(({ lead }) => lead), ...others.filter(({ lead }) => !lead)];
  const beside = stage.drawing || (stage.steps ?? []).length > 0;
  return (
    <div class={beside ? "stage-body two" : "stage-body"} id={id}>
      <div class="stage-main">
        <Steady hold={faultsOf(stage) > 0}>
          <div class="figures">{first.map((figure) => <FigureView key={figure.id} figure={figure} />)}</div>
        </Steady>
        <Fields stage={stage.id} fields={stage.fields ?? []} />
        <Cautions cautions={stage.cautions ?? []} />
        <div class="figures">{ordered.map((figure) => <FigureView key={figure.id} figure={figure} />)}</div>
      </div>
      {beside && (
        <div class="stage-beside">
          <Picture text={stage.drawing} />
          <Steps steps={stage.steps ?? []} />
        </div>
      )}
    </div>
  );
}
