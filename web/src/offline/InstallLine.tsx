import { inOneFile } from "../bridge/open_worker";
import { answer } from "../job/answer";
import { invented } from "../job/job";
import { place } from "../view/place";
import { words } from "../words";
import { installed, isApple, prompt, putAway, putAwayForGood } from "./installing";

/** How to install the page, once the person has an answer of their own; it can be put away for good. */
export function InstallLine() {
  const useful = !invented.value && Boolean(answer.value?.sheet.glance?.lead);
  if (inOneFile || installed || putAway.value || !useful || place.value !== "card") return null;
  const offer = prompt.value;
  const install = () => {
    void offer?.prompt();
    putAwayForGood();
  };
  return (
    <section class="install">
      <p class="help">{offer ? words.install.prompt : isApple ? words.install.apple : words.install.other}</p>
      <div class="buttons">
        {offer && <button type="button" onClick={install}>{words.install.now}</button>}
        <button type="button" onClick={putAwayForGood}>{words.install.never}</button>
      </div>
    </section>
  );
}
