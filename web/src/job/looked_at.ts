import type { Sheet } from "../contract";
import type { Job } from "./job";

/**
 * The stages to be answered first, with blanks between: that of the number in force, those that ask for what has just been
 * changed, and what else is on the screen: the figures at a glance, or the stage of this id (`shown`). All of them, "", while
 * there is no sheet or much has changed.
 */
export function lookedAt(now: Job, before: Job | null, sheet: Sheet | null, glance = true, shown = ""): string {
  if (!before || !sheet?.glance || now.units !== before.units) return "";
  const ids = new Set(
    [...new Set([...Object.keys(now.entries), ...Object.keys(before.entries)])].filter(
      (id) => now.entries[id] !== before.entries[id],
    ),
  );
  if (now.drawer !== before.drawer) ids.add("drawer");
  if (now.observations !== before.observations) ids.add("observations");
  const { lead, stack, rows } = sheet.glance;
  const figures = new Set(glance ? [lead, stack, ...rows.map(({ figure }) => figure)] : [lead, stack]);
  return sheet.stages
    .filter(
      (stage) =>
        stage.id === shown ||
        (stage.figures ?? []).some(({ id }) => figures.has(id)) ||
        (stage.fields ?? []).some(({ id }) => ids.has(id)),
    )
    .map(({ id }) => id)
    .join(" ");
}
