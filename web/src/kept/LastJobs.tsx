import { job } from "../job/job";
import { openJob, textOf } from "../link/address";
import { decodeJob } from "../link/decode";
import { lasts } from "../store/last";
import { words } from "../words";

/** The jobs that were on the page before this one, kept or not. */
export function LastJobs() {
  const now = textOf(job.value);
  const others = lasts.value.filter(({ hash }) => hash !== now);
  if (others.length === 0) return null;
  return (
    <section class="lasts" aria-label={words.kept.lastHeading}>
      <h3>{words.kept.lastHeading}</h3>
      <p class="help">{words.kept.lastHelp}</p>
      <ul class="last-list">
        {others.map(({ id, hash, title, at }) => (
          <li key={id}>
            <button
              type="button"
              class="last-open"
              onClick={() => {
                const opened = decodeJob(hash);
                openJob(opened.job, opened.troubles);
              }}
            >
              <span class="last-name">{title || words.kept.untitled}</span>
              {at > 0 && at <= Date.now() && <span class="last-date">{new Date(at).toISOString().slice(0, 10)}</span>}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
