import { signal } from "@preact/signals";

/** Where the person is on the page. `card` is home; every other place is left by the browser's back. */
export type Place = "card" | "lathe" | "change" | "shop" | "kept" | "more" | "start" | "stage";

interface Spot {
  readonly place: Place;
  /** Which one, of a place that there are several of. */
  readonly which: string;
  /** The job that this step of the browser's history belongs to. */
  readonly of: number;
}

const PLACES: readonly string[] = ["card", "lathe", "change", "shop", "kept", "more", "start", "stage"];
const STORED = "conewright-job";

export const place = signal<Place>("card");
export const which = signal("");

function spotOf(state: unknown): Spot | null {
  const spot = state as Partial<Spot> | null;
  if (typeof spot !== "object" || spot === null || typeof spot.of !== "number") return null;
  return { place: PLACES.includes(spot.place ?? "") ? (spot.place as Place) : "card", which: String(spot.which ?? ""), of: spot.of };
}

function remembered(): number {
  try {
    return Number(localStorage.getItem(STORED)) || 0;
  } catch {
    return 0;
  }
}

/** Names the job in hand, so that its ticks and its steps of history are known again; another job has another. */
export const jobNumber = signal(spotOf(history.state)?.of || remembered() || Date.now());

function remember(): void {
  try {
    localStorage.setItem(STORED, String(jobNumber.value));
  } catch {
    // Without storage the ticks last as long as the page.
  }
}

/** What stands in the browser's history for where the person is now. */
export function spot(): Spot {
  return { place: place.value, which: which.value, of: jobNumber.value };
}

/** Another job is on the page: its own ticks, and home. */
export function beginJob(number = Date.now()): Spot {
  jobNumber.value = number;
  place.value = "card";
  which.value = "";
  remember();
  return spot();
}

/** Go to a place; the browser's back leads home from it. */
export function go(to: Place, one = ""): void {
  if (to === place.value && one === which.value) return;
  if (to === "card") {
    if (spotOf(history.state) && (history.state as { deep?: boolean }).deep) history.back();
    else arrive(to, "");
    return;
  }
  const deep = place.value === "card" || (history.state as { deep?: boolean } | null)?.deep === true;
  const next = { place: to, which: one, of: jobNumber.value, deep };
  if (place.value === "card") history.pushState(next, "", location.href);
  else history.replaceState(next, "", location.href);
  arrive(to, one);
}

function arrive(to: Place, one: string): void {
  place.value = to;
  which.value = one;
  scrollTo(0, 0);
  const main = document.querySelector("main");
  main?.scrollTo(0, 0);
  // Whoever goes by keyboard or is read to goes on from here, where what had the focus is gone.
  requestAnimationFrame(() => document.activeElement === document.body && main?.focus({ preventScroll: true }));
}

/** Whether the step of history that the browser stands on is one of the job on the page. */
export function sameJob(state: unknown): boolean {
  return spotOf(state)?.of === jobNumber.value;
}

/** The number of the job that this step of history belongs to; 0 where a person pasted an address. */
export function numberOf(state: unknown): number {
  return spotOf(state)?.of ?? 0;
}

/** What may lie open over a place; each closes itself where it is open, and says so. */
const closers: (() => boolean)[] = [];

/** A step back closes this first, and stays where the person is. */
export function closedByBack(close: () => boolean): void {
  closers.push(close);
}

/** From now on the browser's back and forward move between places too. */
export function followBack(): void {
  // Each place begins at its top: the browser is not to put back where another one was scrolled to.
  history.scrollRestoration = "manual";
  remember();
  const here = spotOf(history.state);
  if (here && here.of === jobNumber.value) arrive(here.place, here.which);
  else history.replaceState(spot(), "");
  addEventListener("popstate", (event: PopStateEvent) => {
    const to = spotOf(event.state);
    if (to?.of === jobNumber.value && closers.some((close) => close())) {
      history.pushState({ ...spot(), deep: true }, "", location.href);
      return;
    }
    // A step to another job, or to an address that was typed: it opens at home.
    arrive(to?.of === jobNumber.value ? to.place : "card", to?.of === jobNumber.value ? to.which : "");
  });
}
