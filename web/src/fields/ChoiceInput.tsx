import { useComputed } from "@preact/signals";
import type { Field } from "../contract";
import { Choice } from "../parts/Choice";
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
/** Up to so many stand in rows of two or more, each this short at most: one touch in place of two. */
const SOME = 6;
const BRIEF = 16;

/** Few and short enough to stand side by side; two may be longer, over the whole width. */
export function sideBySide(choices: Field["choices"] = []): boolean {
  const letters = choices.map(({ label }) => label.length);
  if (choices.length === 2) return Math.max(...letters) <= SHORT;
  if (choices.length > FEW) return choices.length <= SOME && Math.max(...letters) <= BRIEF;
  return choices.length > 0 && choices.length <= FEW && letters.reduce((sum, one) => sum + one, 0) <= SHORT;
}

/** One of several: side by side when they are few and short, else a list that a tap opens. */
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
  // What a job or link brought that is not among them stays to be seen until another is chosen.
  const said = choices.find(({ value }) => value === taken)?.label ?? (taken === "" ? words.sheet.choose : words.sheet.otherChoice(taken));
  return (
    <Choice
      id={id}
      label={field.label}
      help={field.help}
      choices={choices}
      chosen={taken}
      said={said}
      describedBy={describedBy}
      wrong={Boolean(field.wrong)}
      onChoose={(value) => write(field.id, value)}
    />
  );
}
