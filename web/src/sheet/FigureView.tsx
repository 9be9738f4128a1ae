import { useSignal } from "@preact/signals";
import type { Figure } from "../contract";
import { LaterTable } from "../later/LaterTable";
import { PrintButton } from "../paper/PrintButton";
import { Picture } from "../parts/Picture";
import { TableView } from "../parts/Table";
import { isWide } from "../view/open";
import { Value } from "../parts/Value";
import { words } from "../words";
import { Working } from "./Working";

/** So many rows always show; more are folded on a phone, where they would push everything else away. */
const FEW_ROWS = 3;

/** With fewer rows than this a table is read where it stands. */
const WORTH_A_SHEET = 6;

/** A table of more rows is offered for paper while it stands folded too. */
const ALWAYS_WORTH_IT = 12;

/** One figure: its name and value are a button that opens the working; table and drawing stand beneath. */
export function FigureView({ figure }: { readonly figure: Figure }) {
  const open = useSignal(false);
  const panel = `working-${figure.id}`;
  return (
    <div class={figure.lead ? "figure lead" : "figure"} data-figure={figure.id}>
      <button
        type="button"
        class="figure-row"
        aria-expanded={open.value}
        aria-controls={open.value ? panel : undefined}
        onClick={() => (open.value = !open.value)}
      >
        <span class="figure-label">{figure.label}</span>
        <Value figure={figure} large={figure.lead === true && typeof figure.value === "number"} />
        <span class="chevron" aria-hidden="true" />
      </button>
      {open.value && <Working figure={figure} id={panel} />}
      <Picture text={figure.drawing} />
      <FigureTable figure={figure} />
    </div>
  );
}

function FigureTable({ figure }: { readonly figure: Figure }) {
  const { table, later = [] } = figure;
  const shown = useSignal(isWide.value);
  if (later.length > 0) return <LaterTable figure={figure} />;
  if (!table) return null;
  const short = table.rows.length <= FEW_ROWS;
  return (
    <>
      {!short && (
        <div class="buttons">
          <button type="button" aria-expanded={shown.value} onClick={() => (shown.value = !shown.value)}>
            {shown.value ? words.sheet.hideRows(table.rows.length) : words.sheet.showRows(table.rows.length)}
          </button>
        </div>
      )}
      {(short || shown.value) && <TableView table={table} label={figure.label} />}
      {(table.rows.length > ALWAYS_WORTH_IT || (table.rows.length > WORTH_A_SHEET && shown.value)) && (
        <div class="buttons">
          <PrintButton figure={figure} table={table} />
        </div>
      )}
    </>
  );
}
