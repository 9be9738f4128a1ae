import { signal } from "@preact/signals";

const wide = matchMedia("(min-width: 900px)");

/** Whether there is room for a second column that shows the stages. */
export const isWide = signal(wide.matches);
wide.addEventListener("change", () => {
  // Paper is narrower than the screen; printing must not fold what is open.
  if (!matchMedia("print").matches) isWide.value = wide.matches;
});
