import type { Choice, Field, Piece, Sheet } from "../contract";
import { askAside } from "../job/answer";
import { job } from "../job/job";
import { readSheet } from "../job/request";
import { allFields } from "../job/faults";
import { offerUndo } from "../undo/undo";
import { words } from "../words";

/** Put a customary set into the drawer; tells in words what became of it. Nothing else of the job changes. */
export async function addSet(field: Field, set: Choice): Promise<string> {
  const { value: of } = job;
  let sheet: Sheet;
  try {
    sheet = readSheet(JSON.parse(await askAside(of, { add: [set.value] })));
  } catch {
    return words.sets.lost;
  }
  // The drawer was changed meanwhile: the answer is about another one.
  if (job.value.drawer !== of.drawer) return addSet(field, set);
  const refused = sheet.problems.filter(({ id }) => id === "add");
  if (refused.length > 0) return refused.map(({ message, way_out }) => `${message} ${way_out ?? ""}`).join(" ");
  if (sheet.drawer.length > of.drawer.length) replaceDrawer(of.drawer, sheet.drawer, set.label);
  return sheet.stages.flatMap(allFields).find(({ id }) => id === field.id)?.read ?? "";
}

function replaceDrawer(before: readonly Piece[], after: readonly Piece[], name: string): void {
  job.value = { ...job.value, drawer: after };
  const added = new Set(after.slice(before.length));
  offerUndo(words.sets.added(name), () => {
    const now = job.value.drawer;
    // A piece that was measured since is another object, and stays.
    job.value = { ...job.value, drawer: now === after ? before : now.filter((piece) => !added.has(piece)) };
  });
}
