import type { Field } from "../contract";
import { answer } from "../job/answer";
import { allFields } from "../job/faults";
import { invented, job } from "../job/job";
import { brought, DRAWER, isOwn, settleDrawer, settleEntry, shop } from "../job/shop";
import { words } from "../words";

function labelOf(id: string): string {
  const fields: readonly Field[] = answer.value?.sheet.stages.flatMap(allFields) ?? [];
  return fields.find((field) => field.id === id)?.label ?? id;
}

/** Where a job opened brings parts of its own: in force for it alone, until the person says otherwise. */
export function OwnParts() {
  if (invented.value) return null;
  const now = job.value;
  const entries = (now.own ?? []).filter((id) => id !== DRAWER);
  if (!isOwn(now, DRAWER) && entries.length === 0) return null;
  return (
    <section class="notice own-parts" aria-label={words.own.heading}>
      <h2>{words.own.heading}</h2>
      {isOwn(now, DRAWER) && (
        <>
          <p>{words.own.pieces(now.drawer.length, brought.value.length)}</p>
          <div class="buttons">
            <button type="button" onClick={() => settleDrawer(true)}>{words.own.add(brought.value.length)}</button>
            <button type="button" onClick={() => settleDrawer(false)}>{words.own.leave}</button>
          </div>
        </>
      )}
      {entries.map((id) => (
        <div key={id}>
          <p>{words.own.entry(labelOf(id), now.entries[id] ?? "", shop.value.entries[id] ?? "")}</p>
          <div class="buttons">
            <button type="button" onClick={() => settleEntry(id, true)}>{words.own.mine}</button>
            <button type="button" onClick={() => settleEntry(id, false)}>{words.own.take}</button>
          </div>
        </div>
      ))}
      <p class="help">{words.own.else}</p>
    </section>
  );
}
