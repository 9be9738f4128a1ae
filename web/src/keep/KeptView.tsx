import { NextPart } from "../begin/NextPart";
import { KeptList } from "../kept/KeptList";
import { AllInAFile } from "./AllInAFile";
import { SaveNudge } from "./SaveNudge";
import { ShareJob } from "./ShareJob";

/** Keep this job, take another up, or hand one on. */
export function KeptView() {
  return (
    <div class="kept-place">
      <NextPart />
      <SaveNudge />
      <KeptList />
      <ShareJob />
      <AllInAFile />
    </div>
  );
}
