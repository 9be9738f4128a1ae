import { mergeShop, shop } from "../job/shop";
import { mergeIn, shelf } from "../kept/shelf";
import { words } from "../words";
import { FORMAT, readEverything } from "./read_everything";

/** A file larger than this is none of ours [bytes]. */
const MOST = 20_000_000;

/** All that is kept here, as the text of one file. */
export function everything(): string {
  const { records, foreign } = shelf.value;
  const { entries, drawer, history } = shop.value;
  const whole = { conewright: FORMAT, made: new Date().toISOString(), kept: [...records, ...foreign], shop: { entries, drawer, history } };
  return `${JSON.stringify(whole, null, 1)}\n`;
}

/** Merge a file with what is here: nothing that is here is changed or lost. Tells in words what came of it. */
export async function takeIn(file: File): Promise<string> {
  if (file.size > MOST) return words.file.foreign;
  const read = readEverything(await file.text());
  if (!read) return words.file.foreign;
  const came = await mergeIn(read.kept);
  if (came === null) return words.kept.refused;
  const shopCame = mergeShop(read);
  return words.file.report({ ...shopCame, kept: came, keptHere: read.kept.length - came, strange: read.strange });
}
