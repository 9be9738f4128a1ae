import { openJob } from "../link/address";
import { decodeJob } from "../link/decode";
import { words } from "../words";
import { shelf } from "./shelf";

/** Kept set-ups to go on with, before another is begun. */
export function Recent() {
  const { records } = shelf.value;
  if (records.length === 0) return null;
  return (
    <section aria-label={words.kept.heading}>
      <h2>{words.kept.heading}</h2>
      <ul class="plain-list">
        {records.slice(0, 8).map((record) => (
          <li key={record.id}>
            <button
              type="button"
              class="wide"
              onClick={() => {
                const { job, troubles } = decodeJob(record.hash);
                openJob(job, troubles);
              }}
            >
              {record.name}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
