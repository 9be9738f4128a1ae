import type { Field } from "../contract";

export interface Group {
  readonly name: string;
  readonly fields: readonly Field[];
  /** Whether something in it needs mending: then it may not stay folded. */
  readonly faulty: boolean;
  /** How many of its fields the person has filled. */
  readonly said: number;
}

/** Fields without a group, and the others gathered under theirs in the order they came. */
export function grouped(fields: readonly Field[]): { plain: readonly Field[]; groups: readonly Group[] } {
  const names = [...new Set(fields.map(({ group }) => group ?? ""))].filter((name) => name !== "");
  return {
    plain: fields.filter(({ group }) => !group),
    groups: names.map((name) => {
      const own = fields.filter(({ group }) => group === name);
      return {
        name,
        fields: own,
        faulty: own.some(({ wrong }) => wrong != null),
        said: own.filter(({ value }) => value).length,
      };
    }),
  };
}
