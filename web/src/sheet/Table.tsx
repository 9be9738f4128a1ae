import type { Table } from "../contract";
import { words } from "../words";
import { pick } from "./Value";

/** A table that scrolls inside its own box when it is wider than the page. */
export function TableView({ table, label }: { readonly table: Table; readonly label: string }) {
  return (
    <div class="table-box" role="region" aria-label={label} tabIndex={0}>
      <table>
        <thead>
          <tr>
            {table.columns.map((column) => (
              <th key={column} scope="col">
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row, at) => (
            <tr key={at} class={row.best ? "best" : undefined}>
              {row.cells.map((cell, column) => (
                <td key={column}>
                  {pick(cell)}
                  {row.best && column === 0 && <span class="best-word"> {words.sheet.best}</span>}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
