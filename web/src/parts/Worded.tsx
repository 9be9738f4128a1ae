import { useSignal } from "@preact/signals";
import { words } from "../words";

type Meaning = readonly [string, string];

/** The first place of each word of the trade in a text, in the order of the text. */
function termsIn(text: string): readonly { readonly at: number; readonly end: number; readonly meaning: Meaning }[] {
  const found = words.glossary.flatMap((meaning) => {
    const term = meaning[0].replace(/ \(.*\)$/, "").replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    const match = new RegExp(`\\b${term}s?\\b`, "i").exec(text);
    return match ? [{ at: match.index, end: match.index + match[0].length, meaning }] : [];
  });
  const inOrder = found.sort((one, other) => one.at - other.at || other.end - one.end);
  return inOrder.filter(({ at }, place) => inOrder.slice(0, place).every(({ end }) => end <= at));
}

interface Props {
  readonly text: string;
  readonly class?: string;
  /** Whether the words can be opened here; where not, the text is plain. */
  readonly opens?: boolean;
}

/** A text in which words of the trade are marked, each once; a tap anywhere on it says right there what they mean. */
export function Worded({ text, class: look = "", opens = true }: Props) {
  const open = useSignal(false);
  const terms = opens ? termsIn(text) : [];
  if (terms.length === 0) return <p class={look}>{text}</p>;
  const parts = terms.flatMap(({ at, end }, place) => [
    text.slice(terms[place - 1]?.end ?? 0, at),
    <span key={at} class="term">{text.slice(at, end)}</span>,
  ]);
  return (
    <div class="worded">
      <button type="button" class={`plain ${look}`} aria-expanded={open.value} onClick={() => (open.value = !open.value)}>
        {parts}{text.slice(terms.at(-1)?.end ?? 0)}
      </button>
      {open.value && (
        <dl class="glossary">
          {terms.map(({ meaning: [term, said] }) => (
            <div key={term}><dt>{term}</dt><dd>{said}</dd></div>
          ))}
        </dl>
      )}
    </div>
  );
}
