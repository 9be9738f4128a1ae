import { JobButtons } from "../begin/JobButtons";
import { KeptList } from "../kept/KeptList";

/** Keep this job, take another up, or hand one on. */
export function KeptView() {
  return (
    <div class="kept-place">
      <KeptList />
      <JobButtons />
    </div>
  );
}
