import { answer } from "../job/answer";
import { brought } from "../job/shop";
import { go, place } from "../view/place";
import { Problems } from "../sheet/Problems";
import { words } from "../words";
import { Status } from "./Status";

/** What stands in the way, above everything else; nothing where nothing does. */
export function Trouble() {
  const problems = answer.value?.sheet.problems ?? [];
  return (
    <>
      <Status />
      {place.value !== "change" && <Problems problems={problems} />}
      {place.value === "card" && brought.value.length > 0 && (
        <section class="notice" aria-label={words.own.heading}>
          <p>{words.own.short(brought.value.length)}</p>
          <button type="button" onClick={() => go("shop")}>{words.own.look}</button>
        </section>
      )}
    </>
  );
}
