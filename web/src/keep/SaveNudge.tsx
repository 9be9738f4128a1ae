import { useEffect } from "preact/hooks";
import { words } from "../words";
import { askWhetherKept, later, saveFile, unsaved } from "./saving";

/** A word, in the place of what is kept, before a browser may clear it; it can be put off. */
export function SaveNudge() {
  useEffect(() => void askWhetherKept(), []);
  const since = unsaved.value;
  if (!since) return null;
  return (
    <section class="nudge" aria-label={words.file.heading}>
      <p>{words.file.nudge(since.kept, since.pieces, since.cuts)}</p>
      <div class="buttons">
        <button type="button" class="strong" onClick={saveFile}>{words.file.out}</button>
        <button type="button" onClick={later}>{words.file.later}</button>
      </div>
    </section>
  );
}
