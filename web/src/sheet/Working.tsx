import type { Figure } from "../contract";
import { words } from "../words";
import { pick } from "../parts/Value";

/** How a figure came about: formula, the numbers in it, remarks, and where it is from. */
export function Working({ figure, id }: { readonly figure: Figure; readonly id: string }) {
  const lines = figure.working ?? [];
  return (
    <div class="working" id={id}>
      {lines.length === 0 && <p>{words.sheet.noWorking}</p>}
      {lines.map((line, at) => (
        <div key={at} class="working-line">
          <p class="formula">{line.formula}</p>
          {pick(line.numbers) && <p class="numbers">{pick(line.numbers)}</p>}
          {line.note && <p class="note">{line.note}</p>}
        </div>
      ))}
      {figure.source && (
        <p class="source">
          {words.sheet.source} {figure.source}
        </p>
      )}
    </div>
  );
}
