import type { Table } from "../contract";
import { words } from "../words";
import { pick } from "./Value";

/** Longer than this a cell may break its line; numbers and names stay on one. */
const LONG = 22;

/** More columns than this do not fit a phone: there each row stands as a small card. */
const FEW_COLUMNS = 3;

/** Head and rows of a table; the roles keep it a table for a screen reader where it looks like cards. */
export function TableRows({ table }: { readonly table: Table }) {
  return (
    <>
      <thead role="rowgroup">
        <tr role="row">
          {table.columns.map((column) =>
            column ? (
              <th key={column} scope="col" role="columnheader">
                {column}
              </th>
            ) : (
              // What has no name heads nothing.
              <td key={column} role="cell" />
            ),
          )}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {table.rows.map((row, at) => (
          <tr key={at} role="row" class={row.best ? "best" : undefined}>
            {row.cells.map((cell, column) => (
              <td
                key={column}
                role="cell"
                data-label={table.columns[column]}
                class={pick(cell).length > LONG ? "long" : undefined}
              >
                {pick(cell)}
                {row.best && column === 0 && <span class="best-word"> {words.sheet.best}</span>}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </>
  );
}

interface Props {
  readonly table: Table;
  readonly label: string;
  /** Many rows: the box keeps to the screen's height too, with its head in sight. */
  readonly long?: boolean;
}

/** A table that scrolls inside its own box when it is wider than the page. */
export function TableView({ table, label, long }: Props) {
  return (
    <div class={long ? "table-box long" : "table-box"} role="region" aria-label={label} tabIndex={0}>
      <table role="table" class={!long && table.columns.length > FEW_COLUMNS ? "cards" : undefined}>
        <TableRows table={table} />
      </table>
    </div>
  );
}
