import { answer } from "../job/answer";
import { faultsOf } from "../job/faults";
import { Steady } from "../parts/Steady";
import { Worded } from "../parts/Worded";
import { StageBody } from "../sheet/StageView";
import { which } from "../view/place";
import { inSign } from "../view/sign";
import { words } from "../words";

/** One stage: what it found with the working behind it, its tables, its picture and its cautions. */
export function StagePlace() {
  const stage = answer.value?.sheet.stages.find(({ id }) => id === which.value);
  if (!stage) return <p class="waiting">{words.status.waiting}</p>;
  return (
    <section class="stage open" data-stage={stage.id} aria-label={stage.title}>
      <h2>{stage.title}</h2>
      <Steady hold={faultsOf(stage) > 0}>
        <Worded class="stage-line" text={inSign(stage.line ?? "")} />
      </Steady>
      <StageBody stage={stage} id={`stage-${stage.id}`} />
    </section>
  );
}
