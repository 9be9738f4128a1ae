import { KeptList } from "../kept/KeptList";
import { LookSwitch } from "../look/LookSwitch";
import { JobButtons } from "../begin/JobButtons";
import { OfflineState } from "../offline/OfflineState";

export function Menu() {
  return (
    <div id="menu" class="menu">
      <KeptList />
      <JobButtons />
      <LookSwitch />
      <OfflineState />
    </div>
  );
}
