import { signal } from "@preact/signals";

/** Whether the screen is to stay on; asked anew whenever the page comes back into view. */
export const awake = signal(false);
export const canStayAwake = "wakeLock" in navigator;

let lock: WakeLockSentinel | null = null;

async function take(): Promise<void> {
  try {
    lock = await navigator.wakeLock.request("screen");
  } catch {
    // Refused where the battery is low: the switch says what is so.
    awake.value = false;
  }
}

export async function stayAwake(on: boolean): Promise<void> {
  awake.value = on;
  if (on) await take();
  else {
    await lock?.release().catch(() => undefined);
    lock = null;
  }
}

document.addEventListener("visibilitychange", () => {
  if (awake.value && !document.hidden) void take();
});
