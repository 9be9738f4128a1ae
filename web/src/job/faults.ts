import type { Field, Sheet, Stage } from "../contract";

/** Every field of a stage, those of the pieces too. */
export function allFields(stage: Stage): readonly Field[] {
  return (stage.fields ?? []).flatMap((field) => [field, ...(field.rows ?? []).flat()]);
}

export function faultsOf(stage: Stage): number {
  return allFields(stage).filter(({ wrong }) => wrong).length;
}

export function faultyIds(sheet: Sheet): ReadonlySet<string> {
  const faulty = sheet.stages.flatMap(allFields).filter(({ wrong }) => wrong);
  return new Set(faulty.map(({ id }) => id));
}
