import type { Choice } from "../contract";

interface Props {
  readonly name: string;
  readonly legend: string;
  readonly legendHidden?: boolean;
  readonly choices: readonly Choice[];
  readonly chosen: string;
  readonly describedBy?: string | undefined;
  readonly onChoose: (value: string) => void;
}

/** Letters that leave room for many in a row. */
const TINY = 4;

/** One of a few, side by side: radio buttons underneath, so that keys and readers know them. */
export function Segments({ name, legend, legendHidden, choices, chosen, describedBy, onChoose }: Props) {
  return (
    <fieldset class={choices.every(({ label }) => label.length <= TINY) ? "segments tiny" : "segments"} aria-describedby={describedBy}>
      <legend class={legendHidden ? "unseen" : undefined}>{legend}</legend>
      <div class="segment-row">
        {choices.map(({ value, label }) => (
          <label key={value} class="segment">
            <input
              type="radio"
              name={name}
              value={value}
              checked={chosen === value}
              onChange={() => onChoose(value)}
            />
            <span>{label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
