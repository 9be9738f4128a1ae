import { signal } from "@preact/signals";

/** The figure that the step in hand works to; empty where the job's own number is in force. */
export const inHand = signal("");

/** The figure that names pieces to lay together in this step, where it has one. */
export const stackInHand = signal("");
