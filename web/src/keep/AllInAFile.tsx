import { useSignal } from "@preact/signals";
import { words } from "../words";
import { everything, takeIn } from "./everything";

const STORED = "conewright-saved";

function lastSaved(): string {
  try {
    return localStorage.getItem(STORED) ?? "";
  } catch {
    return "";
  }
}

function noteSaved(day: string): void {
  try {
    localStorage.setItem(STORED, day);
  } catch {
    // Nothing is kept here at all: the file is then all there is.
  }
}

/** Everything kept here in one file, out and in. */
export function AllInAFile() {
  const said = useSignal("");
  const saved = useSignal(lastSaved());
  const save = () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([everything()], { type: "application/json" }));
    link.download = `conewright-${new Date().toISOString().slice(0, 10)}.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
    saved.value = new Date().toISOString().slice(0, 10);
    noteSaved(saved.value);
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
      <p>{saved.value ? words.file.last(saved.value) : words.file.never}</p>
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
