import { signal } from "@preact/signals";

export type Look = "device" | "daylight" | "dark";
const KEY = "conewright.look";

function remembered(): Look {
  try {
    const text = localStorage.getItem(KEY);
    return text === "daylight" || text === "dark" ? text : "device";
  } catch {
    return "device";
  }
}

export const look = signal<Look>("device");

function show(next: Look): void {
  look.value = next;
  if (next === "device") delete document.documentElement.dataset["look"];
  else document.documentElement.dataset["look"] = next;
}

export function chooseLook(next: Look): void {
  show(next);
  try {
    localStorage.setItem(KEY, next);
  } catch {
    // Not remembered then; the look itself still changes.
  }
}

export function startLook(): void {
  show(remembered());
}
