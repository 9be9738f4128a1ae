/**
 * Sheets as they were last answered, so that a screen is there before the core. A convenience: nothing of the person's work
 * lies here, and what cannot be written or read is done without.
 */
import { delMany, get, set, update } from "idb-keyval";
import { within } from "./within";

const LIST = "sheets";
const MOST = 8;
const LONGEST = 2_000_000;
/** So long the page waits for one [ms]. */
const PATIENCE = 400;
const WRITING = 5000;

interface Record {
  readonly build: string;
  readonly request: string;
  readonly sheet: string;
}

interface Listed {
  readonly key: string;
  readonly build: string;
}

/** A short name of a text; that it is this text is looked at when the record is read. */
function nameOf(text: string): string {
  let sum = 0x811c9dc5;
  for (let at = 0; at < text.length; at++) sum = Math.imul(sum ^ text.charCodeAt(at), 0x01000193);
  return `sheet-${(sum >>> 0).toString(16)}`;
}

/** The sheet that this build answered to just this request, as text; "" where there is none. */
export async function keptSheet(build: string, request: string): Promise<string> {
  try {
    const record = await within(PATIENCE, () => get<Partial<Record> | undefined>(nameOf(request)));
    return record?.build === build && record.request === request && typeof record.sheet === "string" ? record.sheet : "";
  } catch {
    return "";
  }
}

/** Keep it among the last few; those of other builds go. */
export async function keepSheet(build: string, request: string, sheet: string): Promise<void> {
  if (sheet.length + request.length > LONGEST) return;
  const key = nameOf(request);
  let gone: string[] = [];
  try {
    await within(WRITING, () => set(key, { build, request, sheet } satisfies Record));
    await within(WRITING, () =>
      update<unknown>(LIST, (raw) => {
        const listed = (Array.isArray(raw) ? (raw as Partial<Listed>[]) : []).filter((one) => one?.key !== key);
        const stay = listed.filter((one) => one.build === build).slice(0, MOST - 1);
        gone = listed.filter((one) => !stay.includes(one)).flatMap((one) => one.key ?? []);
        return [{ key, build } satisfies Listed, ...stay];
      }),
    );
    if (gone.length > 0) await within(WRITING, () => delMany(gone));
  } catch {
    // The next start waits for the core.
  }
}
