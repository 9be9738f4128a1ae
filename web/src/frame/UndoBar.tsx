import { words } from "../words";
import { ownKeys, wantedKeys } from "../keypad/press";
import { undo } from "../undo/undo";

export function UndoBar() {
  const offer = undo.value;
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
