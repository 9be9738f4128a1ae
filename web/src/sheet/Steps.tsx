import { words } from "../words";

export function Steps({ steps }: { readonly steps: readonly string[] }) {
  if (steps.length === 0) return null;
  return (
    <section class="steps">
      <h3>{words.sheet.steps}</h3>
      <ol>
        {steps.map((step, at) => (
          <li key={at}>{step}</li>
        ))}
      </ol>
    </section>
  );
}
