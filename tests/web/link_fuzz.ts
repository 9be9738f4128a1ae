// Links thrown together: what is written reads again as the same job, and what is damaged opens with few words.
import { PIECE_KEYS } from "../../web/src/contract";
import type { Job } from "../../web/src/job/job";
import { readEverything } from "../../web/src/keep/read_everything";
import { readShelf } from "../../web/src/kept/records";
import { decodeJob } from "../../web/src/link/decode";
import { encodeJob } from "../../web/src/link/encode";
import { chance } from "./chance";

const [count, seed] = process.argv.slice(2).map(Number) as [number, number];
const random = chance(seed);
const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)] as T;
const PARTS = [
  "a", "1", "mm", "%", "%41", "%zz", "%E0%A4", "&", "=", "|", "\\", "#", "?", "+", " ", "\t", "\n", "\u0000", "é", "汉", "🔩",
  "\ud800", "\udc00", "<script>", "\"", "'", "__proto__", "constructor", "toString", "format=1", "units=inch", "piece=", "a|b",
  "javascript:alert(1)", "https://example.org/", "°", "′", "½", "−", "x".repeat(500),
];
const ODD: readonly unknown[] = [null, 3, "x", [], {}, [null, 3, { name: 5 }, []], { a: 1, b: null }, [[]], true];
const text = (): string => Array.from({ length: Math.floor(random() * 6) }, () => pick(PARTS)).join("");
const whole = (given: string): string => given.replace(/[\uD800-\uDFFF]/gu, "\uFFFD");

function job(): Job {
  const entries: Record<string, string> = {};
  for (let n = 0; n < random() * 6; n++) {
    // Two ids that differ in a lone half of a pair alone are one in an address: a job has one of them.
    const [id, value] = [pick(["taper.size", "setting.bar_centres", `x${whole(text())}`]), text()];
    if (value !== "" && !["format", "units", "invented", "piece"].includes(id)) entries[id] = value;
  }
  const drawer = Array.from({ length: Math.floor(random() * 4) }, () =>
    Object.fromEntries(PIECE_KEYS.map((key) => [key, text()])),
  ) as unknown as Job["drawer"];
  return { units: pick(["mm", "inch"]), entries, drawer, invented: random() < 0.2 };
}

const faults: string[] = [];
const same = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);
for (let n = 0; n < count; n++) {
  const sent = job();
  const link = encodeJob(sent);
  const back = decodeJob(`#${link}`);
  const wanted = {
    entries: Object.fromEntries(Object.entries(sent.entries).map(([id, value]) => [whole(id), whole(value)])),
    drawer: sent.drawer.map((piece) => Object.fromEntries(PIECE_KEYS.map((key) => [key, whole(piece[key])]))),
  };
  if (back.troubles.length > 0) faults.push(`troubles of our own link ${link}: ${back.troubles}`);
  if (!same({ entries: back.job.entries, drawer: back.job.drawer }, wanted)) faults.push(`not the same job: ${link}`);
  if (back.job.units !== sent.units || back.job.invented !== sent.invented) faults.push(`another frame: ${link}`);
  if (/[\s<>"]/.test(link)) faults.push(`a link with a sign that ends links: ${link}`);

  const cut = text() + link.slice(Math.floor(random() * link.length)) + text();
  // An address holds no lone half of a pair of characters: the browser has put U+FFFD in its place.
  const damaged = whole(random() < 0.5 ? cut : Array.from({ length: 30 }, text).join("&"));
  const opened = decodeJob(damaged);
  if (opened.troubles.join("").length > 8000) faults.push(`too many words about ${damaged.slice(0, 200)}`);
  const texts = [...Object.values(opened.job.entries), ...opened.job.drawer.flatMap((piece) => Object.values(piece))];
  if (texts.some((one) => typeof one !== "string")) faults.push(`not a text in ${damaged.slice(0, 200)}`);
  if (Object.getPrototypeOf(opened.job.entries) !== Object.prototype) faults.push("the entries are of another kind");
  // What was read of a damaged link is a job like any other: written and read again it stays.
  const again = decodeJob(encodeJob(opened.job));
  if (!same(again.job, opened.job)) faults.push(`does not stay: ${damaged.slice(0, 300)}`);

  const shelf = readShelf(pick<unknown>([null, undefined, 1, "x", {}, [null, 1, { format: 1 }, { format: 9, id: text() }], [[]]]));
  const file = JSON.stringify({ conewright: 1, kept: [{ format: 1, id: text(), name: text(), hash: link, kept_at: "" }, pick<unknown>(ODD)],
    shop: { entries: pick<unknown>([sent.entries, ...ODD]), drawer: pick<unknown>([sent.drawer, ...ODD]), history: pick<unknown>(ODD) } });
  const kept = readEverything(random() < 0.5 ? file : file.slice(0, Math.floor(random() * file.length)) + text());
  if (kept && kept.kept.some(({ hash, name }) => typeof hash !== "string" || typeof name !== "string")) faults.push(`a set-up that is none: ${file}`);
  if (kept && kept.drawer.some((piece) => PIECE_KEYS.some((key) => typeof piece[key] !== "string"))) faults.push(`a piece that is none: ${file}`);
  if (kept && Object.values(kept.entries).some((one) => typeof one !== "string")) faults.push(`an entry that is no text: ${file}`);
  if (shelf.records.some(({ hash }) => typeof hash !== "string")) faults.push("a record without its job");
}
process.stdout.write(JSON.stringify(faults.slice(0, 10)));
