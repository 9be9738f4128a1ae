import { render } from "preact";
import { PaperCard } from "./PaperCard";

/** Where the card for paper stands: only while something is being printed, so that typing never waits for it. */
export function followPrinting(): void {
  const box = document.createElement("div");
  box.className = "paper-card";
  document.body.append(box);
  // Drawn in the same moment: the browser takes its picture of the page when this returns.
  const show = () => render(<PaperCard />, box);
  addEventListener("beforeprint", show);
  const media = matchMedia("print");
  media.addEventListener("change", () => media.matches && show());
}
