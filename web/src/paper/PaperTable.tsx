import { useEffect, useRef } from "preact/hooks";
import type { Figure } from "../contract";
import { answer } from "../job/answer";
import { job } from "../job/job";
import { leadOf } from "../job/lead";
import { TableRows } from "../parts/Table";
import { pick } from "../parts/Value";
import { words } from "../words";
import { fit, LENGTHWISE, type Range, TABLE } from "./fit";
import { beginPrinting, paper } from "./paper";

/** A table of more columns than this goes on paper lengthwise. */
const MANY = 7;

/** So few rows are said above the table beside which they stand. */
const FEW = 3;

/** Letters in points: a card to hang is read from a step away; more rows than fit at the least go on to the next sheet. */
const POINTS: Range = { name: "--points", unit: "pt", least: 6.5, most: 22, step: 0.1 };
/** Then the rows stand as far apart as the sheet allows. */
const ROOM: Range = { name: "--room", unit: "em", least: 0.1, most: 1.2, step: 0.02 };

/** The table that is printed by itself; on the screen it is not to be seen. */
export function PaperTable() {
  const sheet = paper.value;
  const box = useRef<HTMLElement>(null);
  const broad = (sheet?.table.columns.length ?? 0) > MANY;
  useEffect(() => {
    if (!sheet || !box.current) return;
    fit(box.current, broad ? LENGTHWISE : TABLE, POINTS);
    fit(box.current, broad ? LENGTHWISE : TABLE, ROOM);
    beginPrinting();
  }, [sheet]);
  if (!sheet) return null;
  const { stage, figure, table } = sheet;
  const now = answer.value?.sheet;
  // A chart is its whole stage on one sheet; any other table is one figure of it.
  const whole = Boolean(figure.later?.length);
  const beside = whole ? (stage?.figures ?? []).filter((one) => one.table && one.table.rows.length <= FEW && !one.later?.length) : [];
  return (
    <section class={broad ? "paper broad" : "paper"} aria-hidden="true" ref={box}>
      <header>
        <h2>{whole ? (stage?.title ?? figure.label) : figure.label}</h2>
        <p>
          {!whole && now && <b>{pick(leadOf(now).title)}</b>} {new Date().toLocaleDateString()}
        </p>
      </header>
      {whole && <p>{stage?.line}</p>}
      {job.value.invented && <p>{words.demo.mark}</p>}
      {beside.map((one) => <Short key={one.id} figure={one} />)}
      <table>
        <caption>{figure.label}</caption>
        <TableRows table={table} />
      </table>
      {figure.source && <p class="source">{`${words.sheet.source} ${figure.source}`}</p>}
    </section>
  );
}

/** A short table as lines: its cells with their columns' names. */
function Short({ figure }: { readonly figure: Figure }) {
  const { columns = [], rows = [] } = figure.table ?? {};
  return (
    <ul class="paper-short">
      {rows.map((row, at) => (
        <li key={at}>
          {row.cells.map((cell, column) => <span key={column}>{columns[column]} <b>{pick(cell)}</b></span>)}
        </li>
      ))}
    </ul>
  );
}
