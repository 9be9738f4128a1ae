import { DemoMark } from "../begin/DemoMark";
import { LinkTroubles } from "./LinkTroubles";
import { UpdateOffer } from "../offline/UpdateOffer";
import { PaperTable } from "../paper/PaperTable";
import { SheetView } from "../sheet/SheetView";
import { UndoBar } from "./UndoBar";
import { Header } from "./Header";

export function App() {
  return (
    <>
      <Header />
      <main>
        <UpdateOffer />
        <DemoMark />
        <LinkTroubles />
        <SheetView />
      </main>
      <UndoBar />
      <PaperTable />
    </>
  );
}
