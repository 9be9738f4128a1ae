import { useSignal } from "@preact/signals";
import { words } from "../words";
import { linksOf } from "./as_file";
import { lost, putBack } from "./shelf";

/** The store was cleared while the page stood open: what the page still holds is offered back, at once and as a file. */
export function LostList() {
  const said = useSignal("");
  const { records, shop } = lost.value;
  if (records.length === 0 && !shop) return <p role="status">{said.value}</p>;
  return (
    <div class="notice lost" role="alert">
      <p>{words.kept.lost(records.length, shop)}</p>
      <div class="buttons">
        <button
          type="button"
          class="strong"
          onClick={async () => {
            if (await putBack()) said.value = words.kept.putBackDone;
          }}
        >
          {words.kept.putBack}
        </button>
        {records.length > 0 && (
          <a class="button" download="conewright-kept.html" href={linksOf(records)}>
            {words.kept.asFile}
          </a>
        )}
      </div>
    </div>
  );
}
