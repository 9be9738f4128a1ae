import type { Problem } from "../contract";
import { job, setEntry } from "../job/job";
import { words } from "../words";

/** What the core could not take as it is, with a button to leave an entry out where there is one. */
export function Problems({ problems }: { readonly problems: readonly Problem[] }) {
  if (problems.length === 0) return null;
  return (
    <section class="notice problems" aria-label={words.sheet.problems}>
      <h2>{words.sheet.problems}</h2>
      <ul>
        {problems.map((problem) => (
          <li key={problem.id + problem.message}>
            {problem.message} {problem.way_out}
            {Object.hasOwn(job.value.entries, problem.id) && (
              <button type="button" onClick={() => setEntry(problem.id, "")}>
                {words.sheet.leaveOut}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
