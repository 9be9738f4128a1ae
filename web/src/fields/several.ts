import type { Choice, Field } from "../contract";

/** Values with commas between, as the core takes them; a semicolon, blanks and capitals do not matter to it. */
export function splitSeveral(text: string): readonly string[] {
  return text.split(/[,;]/).map((part) => part.trim()).filter(Boolean);
}

function plain(text: string): string {
  return text.replace(/\s/g, "").toLowerCase();
}

/** The choices, each with whether it is picked; after them what was written and is not among them. */
export function ticks(field: Field, written: string): readonly (Choice & { readonly picked: boolean; readonly known: boolean })[] {
  const picked = splitSeveral(written || field.default || "");
  const marks = new Set(picked.map(plain));
  const choices = field.choices ?? [];
  const names = new Set(choices.map(({ value }) => plain(value)));
  const others = picked.filter((value) => !names.has(plain(value)));
  return [
    ...choices.map((choice) => ({ ...choice, picked: marks.has(plain(choice.value)), known: true })),
    ...[...new Set(others)].map((value) => ({ value, label: value, picked: true, known: false })),
  ];
}
