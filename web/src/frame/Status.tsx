import { cutOff, engine, unreadable } from "../bridge/engine";
import { answer, askAgain, overtaken } from "../job/answer";
import { offlineWords } from "../offline/offline";
import { words } from "../words";

function said(): { readonly text: string; readonly retry: boolean } {
  const state = engine.value;
  if (state.kind === "failed") return { text: words.status.failed(state.reason), retry: true };
  if (cutOff.value) return { text: words.status.cutOff, retry: true };
  if (unreadable.value) return { text: words.status.unreadable(unreadable.value), retry: true };
  const shown = answer.value;
  if (overtaken.value) return { text: words.status.overtaken, retry: false };
  if (shown?.unchecked) return { text: words.status.checking, retry: false };
  if (shown?.corrected) return { text: words.status.corrected, retry: false };
  if (state.kind === "loading") return { text: words.status.loading(state.step), retry: false };
  return { text: offlineWords(), retry: false };
}

/** Whether what is shown is the core's answer of this time. */
function checked(): string {
  const shown = answer.value;
  return shown?.unchecked ? "not yet" : shown?.corrected ? "corrected" : "yes";
}

/** How things stand, in words, where a screen reader hears it change. */
export function Status() {
  const { text, retry } = said();
  return (
    <div class={retry ? "status trouble" : "status"} data-engine={engine.value.kind} data-checked={checked()}>
      <p role="status">{text}</p>
      {retry && (
        <button type="button" class="strong" onClick={askAgain}>
          {words.status.retry}
        </button>
      )}
    </div>
  );
}
