import type { Stage } from "../contract";
import { Fields } from "../fields/Fields";
import { faultsOf } from "../job/faults";
import { Picture } from "../parts/Picture";
import { Steady } from "../parts/Steady";
import { Cautions } from "./Cautions";
import { FigureView } from "./FigureView";

/** All of a stage: what it asks of the job, what it found with the working behind it, its picture, its cautions. */
export function StageBody({ stage, id }: { readonly stage: Stage; readonly id: string }) {
  const figures = stage.figures ?? [];
  const first = figures.filter(({ lead, value }) => lead && typeof value === "number");
  const others = figures.filter((figure) => !first.includes(figure));
  const ordered = [...others.filter(({ lead }) => lead), ...others.filter(({ lead }) => !lead)];
  return (
    <div class={stage.drawing ? "stage-body two" : "stage-body"} id={id}>
      <div class="stage-main">
        <Steady hold={faultsOf(stage) > 0}>
          <div class="figures">{first.map((figure) => <FigureView key={figure.id} figure={figure} />)}</div>
        </Steady>
        <Fields stage={stage.id} fields={(stage.fields ?? []).filter(({ kind }) => kind !== "pieces")} />
        <Cautions cautions={stage.cautions ?? []} />
        <div class="figures">{ordered.map((figure) => <FigureView key={figure.id} figure={figure} />)}</div>
      </div>
      {stage.drawing && (
        <div class="stage-beside">
          <Picture text={stage.drawing} />
        </div>
      )}
    </div>
  );
}
