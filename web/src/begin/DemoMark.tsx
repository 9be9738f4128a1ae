import { words } from "../words";
import { startAnew } from "./anew";
import { job } from "../job/job";

/** Stands as long as the job on the page descends from the demonstration. */
export function DemoMark() {
  if (!job.value.invented) return null;
  return (
    <div class="demo">
      <p>{words.demo.mark}</p>
      <button type="button" onClick={() => startAnew([])}>
        {words.demo.start}
      </button>
    </div>
  );
}
