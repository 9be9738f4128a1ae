/** Whether two things read from JSON say the same, in whatever order their parts stand. */
export function alike(one: unknown, other: unknown): boolean {
  if (one === other) return true;
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null) return false;
  if (Array.isArray(one) !== Array.isArray(other)) return false;
  const names = Object.keys(one);
  const part = (of: object, name: string): unknown => (of as Record<string, unknown>)[name];
  return (
    names.length === Object.keys(other).length &&
    names.every((name) => Object.hasOwn(other, name) && alike(part(one, name), part(other, name)))
  );
}
