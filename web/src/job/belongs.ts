import type { Field } from "../contract";

/** Whether a field's answer stays from job to job: the drawer always does, the others as the core says. */
export function isOfShop(field: Field): boolean {
  return field.kind === "pieces" || field.belongs === "shop";
}
