import type { Figure, Pair } from "../contract";
import { chosenUnits } from "../job/units";
import { inSign } from "../view/sign";
import { words } from "../words";

/** "2.4967 mm" as its number and the rest, so that the number can be the larger of the two. */
export function splitNumber(text: string): readonly [string, string] {
  const match = /^([-−+±]?\d[\d.,:′″°/]*)(.*)$/su.exec(text);
  return match ? [match[1] ?? "", match[2] ?? ""] : ["", text];
}

export function pick(pair: Pair | undefined): string {
  return inSign(pair?.[chosenUnits()] ?? "");
}

export function pickOther(pair: Pair | undefined): string {
  const other = inSign(pair?.[chosenUnits() === "mm" ? "inch" : "mm"] ?? "");
  return other === pick(pair) ? "" : other;
}

/** A figure's value: large in the chosen units with its ±, small in the other ones. */
export function Value({ figure, large }: { readonly figure: Figure; readonly large?: boolean }) {
  const shown = pick(figure.shown);
  const other = pickOther(figure.shown);
  const [number, rest] = splitNumber(shown);
  if (!shown) return <span class="value unknown">{words.sheet.notKnown}</span>;
  const plusMinus = pick(figure.plus_minus_shown);
  return (
    <span class={large && number ? "value large" : "value"}>
      <span class="chosen">
        <span class="main">
          {number && <span class="number">{number}</span>}
          <span class="rest">{rest}</span>
        </span>{" "}
        {plusMinus && <span class="plus-minus">{plusMinus}</span>}
      </span>{" "}
      {other && (
        <span class="other">
          {other} {plusMinus && pickOther(figure.plus_minus_shown)}
        </span>
      )}
    </span>
  );
}
