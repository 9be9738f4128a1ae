import { words } from "../words";
import { go, place } from "../view/place";
import { invented } from "../job/job";

/** Stands as long as the job on the page descends from the demonstration. */
export function DemoMark() {
  if (!invented.value || place.value === "start") return null;
  return (
    <div class="demo">
      <p>{place.value === "card" && words.demo.what} <b>{words.demo.mark}</b></p>
      <button type="button" onClick={() => go("start")}>
        {words.demo.start}
      </button>
    </div>
  );
}
