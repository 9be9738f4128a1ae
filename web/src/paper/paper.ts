import { signal } from "@preact/signals";
import type { Figure, Stage, Table } from "../contract";
import { answer } from "../job/answer";

/** One table that is to be on paper by itself. */
export interface Paper {
  readonly stage: Stage | undefined;
  readonly figure: Figure;
  readonly table: Table;
}

/** The table to print in place of the page; null while paper would show the page. */
export const paper = signal<Paper | null>(null);

const SIGNS_OF_LIFE = ["pointerdown", "pointermove", "keydown"];

function putAway(): void {
  for (const sign of SIGNS_OF_LIFE) removeEventListener(sign, putAway, true);
  paper.value = null;
}

/** Print this table alone. The printing itself begins once the table stands in the document. */
export function printTable(figure: Figure, table: Table): void {
  const stage = answer.value?.sheet.stages.find(({ figures }) => figures?.some(({ id }) => id === figure.id));
  paper.value = { stage, figure, table };
}

/** To be called once the table stands there. Phones say that printing is over while they still draw the sheet. */
export function beginPrinting(): void {
  print();
  for (const sign of SIGNS_OF_LIFE) addEventListener(sign, putAway, true);
}
