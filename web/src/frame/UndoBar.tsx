import { words } from "../words";
import { undo } from "../undo/undo";

export function UndoBar() {
  const offer = undo.value;
  const takeBack = () => {
    undo.value = null;
    offer?.back();
  };
  return (
    <div class="undo-place" role="status">
      {offer && (
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
