import { effect, signal } from "@preact/signals";
import { AFTER_A_TAP } from "../view/focus";
import { closedByBack, place, which } from "../view/place";

/** Kinds of entries that the page's own keys can write whole. */
export const QUANTITIES: readonly string[] = ["length", "angle", "rate", "count"];

const STORED = "conewright-keys";

function stored(): boolean {
  try {
    const choice = localStorage.getItem(STORED);
    if (choice) return choice === "own";
  } catch {
    // As the device suggests.
  }
  return matchMedia("(pointer: coarse)").matches;
}

/** Whether quantities are typed on the page's own keys, which have the marks that a phone's lack. */
export const ownKeys = signal(stored());

export function useOwnKeys(own: boolean): void {
  ownKeys.value = own;
  try {
    localStorage.setItem(STORED, own ? "own" : "device");
  } catch {
    // Asked again next time.
  }
}

/** The kind of quantity that has the focus, and so which keys are wanted; empty where none are. */
export const wantedKeys = signal("");

/** Write at the caret of the field in focus, as a key of the device would. */
export function press(text: string): void {
  const input = document.activeElement;
  if (!(input instanceof HTMLInputElement)) return;
  const { selectionStart, selectionEnd, value } = input;
  input.setRangeText(text, selectionStart ?? value.length, selectionEnd ?? value.length, "end");
  input.dispatchEvent(new InputEvent("input", { bubbles: true }));
}

export function wipe(): void {
  const input = document.activeElement;
  if (!(input instanceof HTMLInputElement)) return;
  const end = input.selectionEnd ?? input.value.length;
  const start = input.selectionStart ?? end;
  input.setRangeText("", start === end ? Math.max(0, start - 1) : start, end, "end");
  input.dispatchEvent(new InputEvent("input", { bubbles: true }));
}

/** All fields of this screen that can be typed or picked in, in their order. */
function fieldsHere(): HTMLElement[] {
  const all = [...document.querySelectorAll<HTMLElement>("main .field input:not([type=radio], [type=checkbox]), main .field .choice")];
  return all.filter((one) => one.offsetParent !== null);
}

/** Empty, and nothing stands for it: the job waits for this one. */
function wants(field: HTMLElement): boolean {
  return (field as HTMLInputElement).value === "" && !(field as HTMLInputElement).placeholder;
}

/** The next field that wants something; where none does, simply the next one, and after the last none. */
export function goToNext(from: Element | null, back = false): void {
  const all = fieldsHere();
  const at = all.indexOf(from as HTMLElement);
  const next = back ? all[at - 1] : (all.slice(at + 1).find(wants) ?? all[at + 1]);
  if (!next) return (from as HTMLElement | null)?.blur();
  next.focus();
  if (next instanceof HTMLInputElement) next.select();
}

/** The same field on the device's own keyboard, or back on the page's keys. */
export function changeKeys(own: boolean): void {
  const field = document.activeElement as HTMLElement | null;
  useOwnKeys(own);
  // A keyboard comes up or goes only with a fresh focus.
  field?.blur();
  setTimeout(() => field?.focus(), 50);
}

/** Put the keys away; says whether they were up. */
export function hideKeys(): boolean {
  if (!ownKeys.value || wantedKeys.value === "") return false;
  (document.activeElement as HTMLElement | null)?.blur();
  wantedKeys.value = "";
  return true;
}

export function followKeys(): void {
  closedByBack(hideKeys);
  addEventListener("keydown", (event: KeyboardEvent) => event.key === "Escape" && hideKeys());
  let leaving: ReturnType<typeof setTimeout> | undefined;
  // A tap takes the focus before it clicks: keys that went at once would let the page slide from under it.
  const leave = (): void => {
    clearTimeout(leaving);
    leaving = setTimeout(() => (wantedKeys.value = ""), AFTER_A_TAP);
  };
  addEventListener("focusin", ({ target }) => {
    const kind = target instanceof HTMLInputElement ? (target.dataset["kind"] ?? "") : "";
    if (kind === "") return leave();
    clearTimeout(leaving);
    wantedKeys.value = kind;
    // Once the keys are up: only as far as it takes to see the field.
    if (ownKeys.value) setTimeout(() => (target as HTMLElement).scrollIntoView({ block: "nearest" }), 60);
  });
  addEventListener("focusout", leave);
  // A field that goes with its place may take the focus with it and say nothing.
  effect(() => {
    void place.value;
    void which.value;
    requestAnimationFrame(() => {
      const field = document.activeElement as HTMLElement | null;
      if (!field?.dataset["kind"]) wantedKeys.value = "";
    });
  });
}
