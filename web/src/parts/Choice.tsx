import { useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import type { Choice as One } from "../contract";
import { closedByBack } from "../view/place";
import { words } from "../words";

interface Props {
  readonly id: string;
  readonly label: string;
  readonly help?: string | undefined;
  readonly choices: readonly One[];
  readonly chosen: string;
  /** What stands on the button: what is chosen, or what to do. */
  readonly said: string;
  readonly describedBy?: string | undefined;
  readonly wrong?: boolean;
  readonly disabled?: boolean;
  readonly onChoose: (value: string) => void;
}

/** The list that lies open, if one does: a step back closes it. */
let shut: (() => void) | null = null;

closedByBack(() => {
  const here = shut;
  here?.();
  return here !== null;
});

/** One of many: its whole text on a button, which opens all of them as rows for a thumb. A device's own list cuts long ones off. */
export function Choice({ id, label, help, choices, chosen, said, describedBy, wrong, disabled, onChoose }: Props) {
  const open = useSignal(false);
  const button = useRef<HTMLButtonElement>(null);
  const byKey = (event: KeyboardEvent) => {
    if (event.key !== "ArrowDown" && event.key !== "ArrowUp") return;
    event.preventDefault();
    open.value = !disabled;
  };
  const close = () => {
    open.value = false;
    button.current?.focus();
  };
  return (
    <>
      <label for={id} id={`${id}-label`}>{label}</label>
      <button
        ref={button}
        type="button"
        id={id}
        class="choice"
        value={chosen}
        aria-haspopup="listbox"
        aria-expanded={open.value}
        aria-labelledby={`${id}-label ${id}-said`}
        aria-describedby={describedBy}
        aria-invalid={wrong ? "true" : undefined}
        aria-disabled={disabled}
        onClick={() => (open.value = !disabled)}
        onKeyDown={byKey}
      >
        <span id={`${id}-said`}>{said}</span>
        <span class="chevron" aria-hidden="true" />
      </button>
      {open.value && <Open id={id} label={label} help={help} choices={choices} chosen={chosen} onChoose={onChoose} onClose={close} />}
    </>
  );
}

/** Choices no longer than this stand side by side, as many as fit. */
const SHORT = 9;

type OpenProps = Pick<Props, "id" | "label" | "help" | "choices" | "chosen" | "onChoose"> & { readonly onClose: () => void };

function Open({ id, label, help, choices, chosen, onChoose, onClose }: OpenProps) {
  const box = useRef<HTMLDialogElement>(null);
  const list = useRef<HTMLDivElement>(null);
  const gone = useRef(false);
  const options = () => [...(list.current?.children ?? [])] as HTMLElement[];
  // At once and once: a browser tells of it later, when another list may be open already.
  const close = () => {
    if (gone.current) return;
    gone.current = true;
    box.current?.close();
    onClose();
  };

  useLayoutEffect(() => {
    box.current?.showModal();
    const first = options().find((one) => one.ariaSelected === "true") ?? options()[0];
    first?.scrollIntoView({ block: "center" });
    first?.focus({ preventScroll: true });
    shut = close;
    return () => void (shut = null);
  }, []);

  const choose = (value: string) => {
    close();
    onChoose(value);
  };
  const byKey = (event: KeyboardEvent) => {
    const all = options();
    const at = all.indexOf(document.activeElement as HTMLElement);
    const value = choices[at]?.value;
    if ((event.key === "Enter" || event.key === " ") && value !== undefined) choose(value);
    else {
      const next = nextBy(event.key, at, all);
      if (!next) return;
      next.focus();
    }
    event.preventDefault();
  };
  const short = choices.every((one) => one.label.length <= SHORT);
  return (
    // A tap beside the list, on the page behind it, closes it.
    <dialog ref={box} class="choices" aria-labelledby={`${id}-list-label`} onClose={close} onClick={(event) => event.target === box.current && close()}>
      <div class="choices-head">
        <h2 id={`${id}-list-label`}>{label}</h2>
        <button type="button" onClick={close}>{words.choice.close}</button>
      </div>
      {help && <p class="help">{help}</p>}
      <div ref={list} class={short ? "options short" : "options"} role="listbox" aria-labelledby={`${id}-list-label`} onKeyDown={byKey}>
        {choices.map(({ value, label }) => (
          <div key={value} class="option" role="option" data-value={value} aria-selected={value === chosen} tabIndex={value === chosen ? 0 : -1} onClick={() => choose(value)}>
            {label}
          </div>
        ))}
      </div>
    </dialog>
  );
}

/** Where a key leads in a list: arrows, the ends, a letter to the next one that begins with it. */
function nextBy(key: string, at: number, all: readonly HTMLElement[]): HTMLElement | undefined {
  if (key === "ArrowDown" || key === "ArrowRight") return all[at + 1] ?? all[0];
  if (key === "ArrowUp" || key === "ArrowLeft") return all.at(at - 1);
  if (key === "Home") return all[0];
  if (key === "End") return all.at(-1);
  if (key.length !== 1) return undefined;
  const inTurn = [...all.slice(at + 1), ...all.slice(0, at + 1)];
  return inTurn.find((one) => one.textContent?.trim().toLowerCase().startsWith(key.toLowerCase()));
}
