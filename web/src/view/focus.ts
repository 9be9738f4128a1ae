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

export function followFocus(): void {
  addEventListener("focusin", ({ target }) => (focused.value = nameOf(target)));
  addEventListener("focusout", ({ target }) => {
    if (nameOf(target) === focused.value) focused.value = "";
    if (nameOf(target) === typing.value) typing.value = "";
  });
}
