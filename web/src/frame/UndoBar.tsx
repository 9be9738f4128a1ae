import { effect } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { words } from "../words";
import { ownKeys, wantedKeys } from "../keypad/press";
import { undo } from "../undo/undo";
import { place } from "../view/place";

export function UndoBar() {
  const offer = undo.value;
  // Over the steps it would hide what stands lowest, and who goes on has seen it.
  useEffect(
    () =>
      effect(() => {
        void place.value;
        if (undo.peek()?.slight) undo.value = null;
      }),
    [],
  );
  const takeBack = () => {
    undo.value = null;
    offer?.back();
  };
  // Over the keys it would hide what the hand is at; it waits.
  const keysUp = ownKeys.value && wantedKeys.value !== "";
  return (
    <div class="undo-place" role="status">
      {offer && !keysUp && (
        <div class="undo">
          <span>{offer.said}</span>
          <button type="button" class="strong" onClick={takeBack}>
            {words.undo.back}
          </button>
          <button type="button" onClick={() => (undo.value = null)}>
            {words.undo.fine}
          </button>
        </div>
      )}
    </div>
  );
}
