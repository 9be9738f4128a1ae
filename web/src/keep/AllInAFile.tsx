import { useSignal } from "@preact/signals";
import { words } from "../words";
import { takeIn } from "./everything";
import { savedOn, saveFile } from "./saving";

/** Everything kept here in one file, out and in. */
export function AllInAFile() {
  const said = useSignal("");
  const save = () => {
    saveFile();
    said.value = words.file.saved;
  };
  const open = async (input: HTMLInputElement) => {
    const file = input.files?.[0];
    if (!file) return;
    said.value = await takeIn(file);
    input.value = "";
  };
  return (
    <section aria-label={words.file.heading}>
      <h2>{words.file.heading}</h2>
      <p class="help">{words.file.help}</p>
      <p>{savedOn.value ? words.file.last(savedOn.value) : words.file.never}</p>
      <div class="buttons">
        <button type="button" onClick={save}>{words.file.out}</button>
        <label class="file-in">
          <input type="file" accept="application/json,.json" onChange={(event) => void open(event.currentTarget)} />
          <span>{words.file.in}</span>
        </label>
      </div>
      <p role="status" class="said">{said.value}</p>
    </section>
  );
}
