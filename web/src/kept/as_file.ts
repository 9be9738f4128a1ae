import { words } from "../words";
import type { Kept } from "./records";

const SIGNS: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (sign) => SIGNS[sign] ?? sign);
}

/** The address of a file with a link for each set-up: any browser opens it, and each link holds its whole job. */
export function linksOf(records: readonly Kept[]): string {
  const page = location.href.replace(/#.*$/, "");
  const lines = records.map(
    ({ name, hash, kept_at }) => `<li><a href="${escaped(`${page}#${hash}`)}">${escaped(name)}</a> ${escaped(kept_at.slice(0, 10))}</li>`,
  );
  const title = escaped(words.kept.fileTitle);
  const text = `<!doctype html><meta charset="utf-8"><title>${title}</title><h1>${title}</h1><ul>${lines.join("\n")}</ul>`;
  return `data:text/html;charset=utf-8,${encodeURIComponent(text)}`;
}
