import { StageLines } from "../card/CardView";
import { answer } from "../job/answer";
import { isWide } from "../view/open";
import { place, which } from "../view/place";

/** On a wide screen the stages stand beside the one in hand. */
export function Side() {
  const sheet = answer.value?.sheet;
  if (!isWide.value || !sheet || place.value === "start") return null;
  return <StageLines stages={sheet.stages} open={place.value === "stage" ? which.value : ""} />;
}
