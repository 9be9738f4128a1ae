import { signal } from "@preact/signals";

/** Stages that the person has opened or folded by hand; the others go by the width of the screen. */
const byHand = signal<Readonly<Record<string, boolean>>>({});

const wide = matchMedia("(min-width: 900px)");
export const isWide = signal(wide.matches);
wide.addEventListener("change", () => {
  // Paper is narrower than the screen; printing must not fold what is open.
  if (!matchMedia("print").matches) isWide.value = wide.matches;
});

export function isOpen(id: string): boolean {
  return byHand.value[id] ?? isWide.value;
}

export function setOpen(id: string, open: boolean): void {
  byHand.value = { ...byHand.value, [id]: open };
}
