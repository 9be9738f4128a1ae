import { words } from "../words";
import { troubles } from "../link/address";

/** What a damaged link left out; the job opens all the same. */
export function LinkTroubles() {
  if (troubles.value.length === 0) return null;
  return (
    <section class="notice troubles" role="alert">
      <h2>{words.link.heading}</h2>
      <ul>
        {troubles.value.map((trouble) => (
          <li key={trouble}>{trouble}</li>
        ))}
      </ul>
      <p>{words.link.rest}</p>
      <button type="button" onClick={() => (troubles.value = [])}>
        {words.link.fine}
      </button>
    </section>
  );
}
