import { chosenUnits } from "../job/units";
import { useSignal } from "@preact/signals";
import type { LineRead } from "../job/request";
import { words } from "../words";
import { addLines } from "./lines";

/** Pieces typed one a line: Enter takes the line in and waits for the next; a paste of many goes in at once. */
export function LineEntry() {
  const text = useSignal("");
  const said = useSignal("");
  const left = useSignal<readonly LineRead[]>([]);
  const take = async (lines: readonly string[]) => {
    const wanted = lines.filter((line) => line.trim() !== "");
    if (wanted.length === 0) return;
    text.value = "";
    const { count, left: refused, lost } = await addLines(wanted);
    if (lost) {
      text.value = wanted.join("  ");
      said.value = words.sets.lost;
      return;
    }
    said.value = count > 0 ? words.lines.added(count) : "";
    left.value = [...left.value, ...refused];
  };
  const again = (line: LineRead, instead: string) => {
    left.value = left.value.filter((one) => one !== line);
    void take([instead]);
  };
  return (
    <div class="line-entry field">
      <label for="line-entry">{words.lines.label}</label>
      <div class="input-row">
        <input
          id="line-entry"
          type="text"
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          enterkeyhint="enter"
          placeholder={words.lines.example[chosenUnits()]}
          value={text.value}
          onInput={(event) => (text.value = event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key !== "Enter") return;
            event.preventDefault();
            void take([event.currentTarget.value]);
          }}
          onPaste={(event) => {
            const pasted = event.clipboardData?.getData("text") ?? "";
            if (!/\n./.test(pasted)) return;
            event.preventDefault();
            void take(pasted.split(/\r?\n/));
          }}
        />
        <button type="button" onClick={() => void take([text.value])}>{words.lines.take}</button>
      </div>
      <p role="status" class="said">{said.value}</p>
      {left.value.map((line, at) => (
        <div key={at} class="fault">
          <p role="alert">
            <b>{line.text}</b>: {line.wrong?.message}. {line.wrong?.way_out}
          </p>
          <div class="offers">
            {(line.wrong?.offers ?? []).map((offer) => (
              <button key={offer} type="button" onClick={() => again(line, offer)}>{words.sheet.use(offer)}</button>
            ))}
            <button
              type="button"
              onClick={() => {
                text.value = line.text;
                left.value = left.value.filter((one) => one !== line);
              }}
            >
              {words.lines.mend}
            </button>
          </div>
        </div>
      ))}
    </div>
  );
}
