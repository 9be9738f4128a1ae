import type { Sheet } from "../contract";
import { allFields } from "./faults";
import type { Job } from "./job";

/**
 * The stages to be answered first, with blanks between: those of the figures at a glance, and those that ask for what has
 * just been changed. All of them, "", while there is no sheet or much has changed.
 */
export function lookedAt(now: Job, before: Job | null, sheet: Sheet | null): string {
  if (!before || !sheet?.glance || now.units !== before.units) return "";
  const ids = new Set(
    [...new Set([...Object.keys(now.entries), ...Object.keys(before.entries)])].filter(
      (id) => now.entries[id] !== before.entries[id],
    ),
  );
  if (now.drawer !== before.drawer) ids.add("drawer");
  if (now.observations !== before.observations) ids.add("observations");
  const { lead, stack, rows } = sheet.glance;
  const shown = new Set([lead, stack, ...rows.map(({ figure }) => figure)]);
  return sheet.stages
    .filter(
      (stage) =>
        (stage.figures ?? []).some(({ id }) => shown.has(id)) || allFields(stage).some(({ id }) => ids.has(id)),
    )
    .map(({ id }) => id)
    .join(" ");
}
