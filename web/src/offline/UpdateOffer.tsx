import { writeAddress } from "../link/address";
import { words } from "../words";
import { changeOver, offline } from "./offline";

/** A newer version is offered, never forced. */
export function UpdateOffer() {
  if (!offline.value?.waiting) return null;
  const change = () => {
    writeAddress();
    changeOver();
  };
  return (
    <div class="notice update" role="status">
      <p>{words.offline.waiting}</p>
      <button type="button" onClick={change}>
        {words.offline.change}
      </button>
    </div>
  );
}
