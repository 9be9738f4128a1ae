import { effect, signal } from "@preact/signals";
import type { Piece, Sheet, Units } from "../contract";
import { PIECE_KEYS } from "../contract";
import { faultyIds } from "./faults";
import { answer } from "./answer";
import { type Job, job } from "./job";

/** The ids of an observation's cells begin so. */
const ROW = "observations.";

/** The units that the person has asked for but the job cannot take up until the core has read it. */
export const wanted = signal<Units | null>(null);

/** What the switch shows: the wish at once, whatever the core is doing. */
export function chosenUnits(): Units {
  return wanted.value ?? job.value.units;
}

export function switchUnits(units: Units): void {
  wanted.value = units === job.value.units ? null : units;
}

/**
 * The same job in other units. A bare "100" would change its meaning, so every entry that the core
 * understood is replaced by the core's own text for it, which carries its unit; the rest stays as typed. Where
 * nothing was typed the default in force becomes an entry: in other units it would be another one.
 */
export function inUnits(before: Job, sheet: Sheet, units: Units): Job {
  const faulty = faultyIds(sheet);
  const entries = Object.fromEntries(
    Object.entries(before.entries).map(([id, text]) => {
      const known = Object.hasOwn(sheet.entries, id) ? sheet.entries[id] : undefined;
      return [id, known ? known : text];
    }),
  );
  const inForce = units === before.units ? {} : sheet.defaults;
  for (const [id, text] of Object.entries(inForce)) if (!id.startsWith(ROW) && !entries[id]?.trim()) entries[id] = text;
  const sameDrawer = sheet.drawer.length === before.drawer.length;
  const drawer = before.drawer.map((piece, index) => {
    const read = sameDrawer ? sheet.drawer[index] : undefined;
    if (!read) return piece;
    const texts = PIECE_KEYS.map((key) => {
      const keep = piece[key] === "" || faulty.has(`drawer.${index}.${key}`) || !read[key];
      return [key, keep ? piece[key] : read[key]] as const;
    });
    // A piece that reads alike in both systems stays the very same one.
    return texts.every(([key, text]) => text === piece[key]) ? piece : (Object.fromEntries(texts) as unknown as Piece);
  });
  const seen = sheet.observations ?? [];
  const observations = (before.observations ?? []).map((row, index) => {
    const read = seen.length === before.observations?.length ? seen[index] : undefined;
    const known = (key: string) => !faulty.has(`${ROW}${index}.${key}`) && read?.[key];
    const spelled = Object.fromEntries(Object.entries(row).map(([key, text]) => [key, known(key) || text]));
    const own = `${ROW}${index}.`;
    for (const [id, text] of Object.entries(inForce)) {
      const key = id.slice(own.length);
      if (id.startsWith(own) && !spelled[key]?.trim()) spelled[key] = text;
    }
    return spelled;
  });
  return { ...before, units, entries, drawer, observations };
}

/** Carry a wish out as soon as the answer on hand is about the job on hand. */
export function startSwitching(): void {
  effect(() => {
    const units = wanted.value;
    const latest = answer.value;
    if (!units || !latest?.whole || latest.of !== job.value) return;
    wanted.value = null;
    job.value = inUnits(latest.of, latest.sheet, units);
  });
}
