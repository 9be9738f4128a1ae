import { answer } from "../job/answer";
import { Steady } from "../parts/Steady";
import { words } from "../words";
import { Card } from "./Card";
import { faultyIds } from "../job/faults";
import { Problems } from "./Problems";
import { StageView } from "./StageView";

/** The latest answer, whole; until there is one, a word that it is coming. */
export function SheetView() {
  const sheet = answer.value?.sheet;
  if (!sheet) return <p class="waiting">{words.status.waiting}</p>;
  return (
    <>
      <Steady hold={faultyIds(sheet).size > 0}>
        <Card sheet={sheet} />
      </Steady>
      <Problems problems={sheet.problems} />
      {sheet.stages.map((stage) => (
        <StageView key={stage.id} stage={stage} />
      ))}
    </>
  );
}
