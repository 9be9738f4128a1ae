import { inOneFile } from "../bridge/open_worker";
import { words } from "../words";
import { offlineWords } from "./offline";

export function OfflineState() {
  return (
    <section aria-label={words.offline.heading}>
      <h2>{words.offline.heading}</h2>
      <p>{offlineWords()}</p>
      {inOneFile && <p class="help">{words.oneFile.whole}</p>}
    </section>
  );
}
