import { useComputed } from "@preact/signals";
import type { Field } from "../contract";
import { Segments } from "../parts/Segments";
import { write, written } from "../job/job";
import { words } from "../words";

interface Props {
  readonly field: Field;
  readonly id: string;
  readonly describedBy: string | undefined;
}

const FEW = 3;
const SHORT = 26;

/** Few and short enough to stand side by side; two may be longer, over the whole width. */
export function sideBySide(choices: Field["choices"] = []): boolean {
  const letters = choices.map(({ label }) => label.length);
  if (choices.length === 2) return Math.max(...letters) <= SHORT;
  return choices.length > 0 && choices.length <= FEW && letters.reduce((sum, one) => sum + one, 0) <= SHORT;
}

/** One of several: side by side when they are few and short, else the device's own list. */
export function ChoiceInput({ field, id, describedBy }: Props) {
  const chosen = useComputed(() => written(field.id)).value;
  const choices = field.choices ?? [];
  const taken = chosen || field.default || "";
  const known = choices.some(({ value }) => value === taken);

  if (sideBySide(choices) && (known || taken === "")) {
    return (
      <Segments
        name={id}
        legend={field.label}
        choices={choices}
        chosen={taken}
        describedBy={describedBy}
        onChoose={(value) => write(field.id, value)}
      />
    );
  }
  return (
    <>
      <label for={id}>{field.label}</label>
      <select
        id={id}
        value={taken}
        aria-describedby={describedBy}
        aria-invalid={field.wrong ? "true" : undefined}
        onChange={(event) => write(field.id, event.currentTarget.value)}
      >
        {taken === "" && <option value="">{words.sheet.choose}</option>}
        {taken !== "" && !known && <option value={taken}>{words.sheet.otherChoice(taken)}</option>}
        {choices.map(({ value, label }) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </select>
    </>
  );
}
