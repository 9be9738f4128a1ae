/** The latest time that anything kept here was written at, as far as this page has seen [ms]. */
let latest = 0;

/** Something was written at this time. */
export function passed(at: number): void {
  if (Number.isFinite(at)) latest = Math.max(latest, at);
}

/** A time later than everything written before, whatever the device's clock says now: it may have been set back. */
export function later(): number {
  latest = Math.max(Date.now(), latest + 1);
  return latest;
}
