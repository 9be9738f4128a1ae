import { useSignal } from "@preact/signals";
import { words } from "../words";
import { everything, takeIn } from "./everything";

/** Everything kept here in one file, out and in. */
export function AllInAFile() {
  const said = useSignal("");
  const save = () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([everything()], { type: "application/json" }));
    link.download = `conewright-${new Date().toISOString().slice(0, 10)}.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
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
