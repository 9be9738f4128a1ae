import type { Caution } from "../contract";
import { words } from "../words";

const LEVELS: Readonly<Record<string, string>> = {
  danger: words.sheet.danger,
  care: words.sheet.care,
  note: words.sheet.note,
};
const ORDER = ["danger", "care", "note"];

/** Gravest first; the level stands in words and not in colour alone. */
export function Cautions({ cautions }: { readonly cautions: readonly Caution[] }) {
  if (cautions.length === 0) return null;
  const sorted = [...cautions].sort((a, b) => ORDER.indexOf(a.level) - ORDER.indexOf(b.level));
  return (
    <ul class="cautions" aria-label={words.sheet.cautions}>
      {sorted.map((caution) => (
        <li key={caution.text} class={`caution ${caution.level}`}>
          <strong>{LEVELS[caution.level] ?? caution.level}:</strong> {caution.text}
          {caution.reason && (
            <span class="reason">
              {words.sheet.why} {caution.reason}
            </span>
          )}
        </li>
      ))}
    </ul>
  );
}
