import { signal } from "@preact/signals";

/** What a browser hands over that can install the page itself. */
interface Prompt extends Event {
  prompt(): Promise<unknown>;
}

const STORED = "conewright-no-install";

function putAwayBefore(): boolean {
  try {
    return localStorage.getItem(STORED) === "yes";
  } catch {
    return false;
  }
}

/** Whether the line on installing was put away for good. */
export const putAway = signal(putAwayBefore());
export const prompt = signal<Prompt | null>(null);

export const installed = matchMedia("(display-mode: standalone)").matches;
export const isApple = /iPhone|iPad/.test(navigator.userAgent);

export function putAwayForGood(): void {
  putAway.value = true;
  try {
    localStorage.setItem(STORED, "yes");
  } catch {
    // It comes again with the next start.
  }
}

export function followInstalling(): void {
  addEventListener("beforeinstallprompt", (event: Event) => {
    // Shown in our own place and time, never over the work.
    event.preventDefault();
    prompt.value = event as Prompt;
  });
}
