import { answer } from "../job/answer";
import { allFields } from "../job/faults";
import { focused } from "../view/focus";
import { words } from "../words";

/** What there is to say of the field in hand, in one place that moves nothing. */
export function Hint() {
  const id = focused.value;
  const field = id ? answer.value?.sheet.stages.flatMap(allFields).find((one) => one.id === id) : undefined;
  // A choice says its own in the list that it opens: nothing is to rise under the finger that is on its way there.
  if (!field || field.kind === "choice") return null;
  const usual = field.default && !field.value ? words.sheet.ifEmpty(field.default) : "";
  if (!field.help && !usual) return null;
  return (
    <p class="hint" aria-hidden="true">
      {[field.help, usual].filter(Boolean).join(" ")}
    </p>
  );
}
