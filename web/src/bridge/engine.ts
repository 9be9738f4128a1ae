import { signal } from "@preact/signals";

/** How the core's worker stands. */
export type Engine =
  | { readonly kind: "loading"; readonly step: string }
  | { readonly kind: "ready" }
  | { readonly kind: "failed"; readonly reason: string };

export const engine = signal<Engine>({ kind: "loading", step: "" });

/** True after a call was cut off for taking too long, until the next answer. */
export const cutOff = signal(false);

/** Why the last answer could not be read; empty when it could. */
export const unreadable = signal("");
