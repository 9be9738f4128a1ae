import { signal } from "@preact/signals";

/** Whether the menu under the header is unfolded. */
export const menuOpen = signal(false);
