import { signal } from "@preact/signals";

/** The figure that the step in hand works to; empty where the job's own number is in force. */
export const inHand = signal("");
