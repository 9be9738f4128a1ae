import { Band } from "../band/Band";
import { DemoMark } from "../begin/DemoMark";
import { StartView } from "../start/StartView";
import { CardView } from "../card/CardView";
import { StagePlace } from "../card/StagePlace";
import { ChangeView } from "../change/ChangeView";
import { Hint } from "../fields/Hint";
import { Keypad } from "../keypad/Keypad";
import { KeptView } from "../keep/KeptView";
import { LatheView } from "../lathe/LatheView";
import { UpdateOffer } from "../offline/UpdateOffer";
import { PaperTable } from "../paper/PaperTable";
import { ShopView } from "../shop/ShopView";
import { place } from "../view/place";
import { Dock } from "./Dock";
import { LinkTroubles } from "./LinkTroubles";
import { MoreView } from "./MoreView";
import { InstallLine } from "../offline/InstallLine";
import { Side } from "./Side";
import { Trouble } from "./Trouble";
import { UndoBar } from "./UndoBar";

function Here() {
  switch (place.value) {
    case "lathe":
      return <LatheView />;
    case "change":
      return <ChangeView />;
    case "shop":
      return <ShopView />;
    case "kept":
      return <KeptView />;
    case "more":
      return <MoreView />;
    case "start":
      return <StartView />;
    case "stage":
      return <StagePlace />;
    default:
      return <CardView />;
  }
}

export function App() {
  return (
    <>
      <div class="page" data-place={place.value}>
        <div class="side">
          <Band />
          <Side />
        </div>
        <main tabIndex={-1}>
          <Trouble />
          <UpdateOffer />
          <DemoMark />
          <LinkTroubles />
          <Here />
          <InstallLine />
        </main>
        <footer class="foot">
          <Hint />
          <Keypad />
          <Dock />
        </footer>
      </div>
      <UndoBar />
      <PaperTable />
    </>
  );
}
