import { useEffect } from "preact/hooks";
import { job } from "../job/job";
import { TableRows } from "../parts/Table";
import { words } from "../words";
import { beginPrinting, paper } from "./paper";

/** A table of more columns than this goes on paper lengthwise. */
const MANY = 7;

/** The table that is printed by itself; on the screen it is not to be seen. */
export function PaperTable() {
  const sheet = paper.value;
  useEffect(() => {
    if (sheet) beginPrinting();
  }, [sheet]);
  if (!sheet) return null;
  const { stage, figure, table } = sheet;
  return (
    <section class={table.columns.length > MANY ? "paper broad" : "paper"} aria-hidden="true">
      <h2>{stage?.title ?? figure.label}</h2>
      <p>{stage?.line}</p>
      {job.value.invented && <p>{words.demo.mark}</p>}
      <table>
        <caption>{figure.label}</caption>
        <TableRows table={table} />
      </table>
      {figure.source && <p class="source">{`${words.sheet.source} ${figure.source}`}</p>}
    </section>
  );
}
