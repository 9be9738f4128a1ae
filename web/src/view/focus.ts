import { signal } from "@preact/signals";

/** The entry whose field has the focus; empty where none has. */
export const focused = signal("");

/** The entry being typed in this moment: what is wrong with it is said once the typing pauses. */
export const typing = signal("");

/** So long without a key, or out of the field, and an entry counts as typed [ms]. */
const PAUSE = 900;

let due: ReturnType<typeof setTimeout> | undefined;

export function typedIn(id: string): void {
  typing.value = id;
  clearTimeout(due);
  due = setTimeout(() => (typing.value = ""), PAUSE);
}

const nameOf = (target: EventTarget | null) =>
  target instanceof HTMLElement && target.id.startsWith("field-") ? target.id.slice("field-".length) : "";

/** A tap moves the focus before it clicks: what goes with the focus must not move the page from under it [ms]. */
export const AFTER_A_TAP = 400;

export function followFocus(): void {
  let leaving: ReturnType<typeof setTimeout> | undefined;
  addEventListener("focusin", ({ target }) => {
    const name = nameOf(target);
    clearTimeout(leaving);
    if (name !== "") focused.value = name;
    else leaving = setTimeout(() => (focused.value = ""), AFTER_A_TAP);
  });
  addEventListener("focusout", ({ target }) => {
    clearTimeout(leaving);
    leaving = setTimeout(() => (focused.value = ""), AFTER_A_TAP);
    if (nameOf(target) === typing.value) typing.value = "";
  });
}
