import { signal } from "@preact/signals";

/** Which part of the shop is on the screen: drawer, machine or learned. */
export const shopPart = signal("drawer");
