import { useSignal } from "@preact/signals";
import type { Figure } from "../contract";
import { LaterTable } from "../later/LaterTable";
import { PrintButton } from "../paper/PrintButton";
import { Picture } from "./Picture";
import { TableView } from "./Table";
import { Value } from "./Value";
import { Working } from "./Working";

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
  if (later.length > 0) return <LaterTable figure={figure} />;
  if (!table) return null;
  return (
    <>
      <TableView table={table} label={figure.label} />
      {table.rows.length > 0 && (
        <div class="buttons">
          <PrintButton figure={figure} table={table} />
        </div>
      )}
    </>
  );
}
