import { KeptList } from "../kept/KeptList";
import { AllInAFile } from "./AllInAFile";
import { LearnCut } from "./LearnCut";
import { SaveNudge } from "./SaveNudge";
import { ShareJob } from "./ShareJob";

/** Keep this job, take another up, or hand one on. */
export function KeptView() {
  return (
    <div class="kept-place">
      <LearnCut />
      <SaveNudge />
      <KeptList />
      <ShareJob />
      <AllInAFile />
    </div>
  );
}
