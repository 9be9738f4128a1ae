import type { Figure, Table } from "../contract";
import { words } from "../words";
import { printTable } from "./paper";

export function PrintButton({ figure, table }: { readonly figure: Figure; readonly table: Table }) {
  return (
    <button type="button" onClick={() => printTable(figure, table)}>
      {words.sheet.printTable}
    </button>
  );
}
