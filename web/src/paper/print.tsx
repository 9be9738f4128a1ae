import { render } from "preact";
import { fit, type Range, UPRIGHT } from "./fit";
import { PaperCard } from "./PaperCard";

/** Letters of the card on paper, in points: as large as one sheet allows, and never so small that nobody reads them. */
const POINTS: Range = { name: "--points", unit: "pt", least: 5, most: 11, step: 0.1 };

/** Where the card for paper stands: only while something is being printed, so that typing never waits for it; `name`, of the job. */
export function followPrinting(name: () => string): void {
  const box = document.createElement("div");
  box.className = "paper-card";
  document.body.append(box);
  // Drawn in the same moment: the browser takes its picture of the page when this returns.
  const show = () => {
    render(<PaperCard name={name()} />, box);
    fit(box, UPRIGHT, POINTS);
  };
  addEventListener("beforeprint", show);
  const media = matchMedia("print");
  media.addEventListener("change", () => media.matches && show());
}
