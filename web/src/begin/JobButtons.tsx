import { useSignal } from "@preact/signals";
import { fullAddress } from "../link/address";
import { words } from "../words";
import { startAnew } from "./anew";

/** What can be done with the job as a whole. */
export function JobButtons() {
  const said = useSignal("");
  const byHand = useSignal("");
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(fullAddress());
      said.value = words.job.copied;
    } catch {
      // No clipboard on a plain http address, or the person said no.
      byHand.value = fullAddress();
      said.value = words.job.copyByHand;
    }
  };
  return (
    <section aria-label={words.job.heading}>
      <h2>{words.job.heading}</h2>
      <div class="buttons">
        <button type="button" onClick={copy}>{words.job.copy}</button>
        <button type="button" onClick={() => print()}>{words.job.print}</button>
        <button type="button" onClick={() => startAnew([])}>{words.job.empty}</button>
      </div>
      <p role="status">{said.value}</p>
      {byHand.value && <textarea readOnly aria-label={words.job.copy} rows={4} value={byHand.value} />}
    </section>
  );
}
