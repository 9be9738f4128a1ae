import { effect, signal } from "@preact/signals";
import { answer } from "../job/answer";
import { type Job, job } from "../job/job";
import { withoutShop, withShop } from "../job/shop";
import { journalled, note, notedHere } from "../store/journal";
import { chose, isNews, keepLast, lasts, tookUp } from "../store/last";
import type { LastJob } from "../store/last_job";
import { later, passed } from "../store/later";
import { offerUndo } from "../undo/undo";
import { beginJob, jobNumber, numberOf, sameJob, spot } from "../view/place";
import { words } from "../words";
import { decodeJob } from "./decode";
import { encodeJob } from "./encode";
import { isPacked, unpack } from "./packed";

/** What could not be read of the address that was opened. */
export const troubles = signal<readonly string[]>([]);

/** Some browsers refuse more than a hundred changes of the address in half a minute. */
const PAUSE = 350;

let due: ReturnType<typeof setTimeout> | undefined;

/** Addresses that the job in hand had a moment ago, the newest last: as many as a slow network may be behind. */
let earlier: readonly string[] = [];
const BEHIND = 4;

/** A job as it was handed out and not by the person: it takes no place among those that were here last. */
let ours = "";

/** Of this job nothing is the person's own as long as it reads like this. */
export function handOut(text: string): void {
  ours = text;
}

/** A job as its address holds it. */
export function textOf(of: Job): string {
  return encodeJob(withoutShop(of));
}

/** The number of the job with this text, where it was here lately; undefined asks for a new one. */
function known(text: string, took: (found: LastJob) => void = tookUp): number | undefined {
  const found = [...lasts.peek(), journalled()].find((one) => one?.hash === text);
  if (found) took(found);
  return Number(found?.id) || undefined;
}

function asLast(text: string): LastJob {
  const id = String(jobNumber.peek());
  const now = answer.peek();
  // Another page may have written since.
  passed(journalled()?.at ?? 0);
  const line = now?.of === job.peek() ? now.sheet.stages.find((stage) => stage.line)?.line : undefined;
  return { id, hash: text, title: line ?? lasts.peek().find((one) => one.id === id)?.title ?? "", at: later() };
}

/** Note the job before anything else can happen; what this page only found so is no news to another one. */
function noteNow(text: string, from: readonly string[]): void {
  const now = asLast(text);
  note(now, from, earlier, text !== ours && isNews(now.id, text));
}

/** Keep the job in hand among the last ones, now. */
function keepNow(): void {
  clearTimeout(due);
  due = undefined;
  const text = textOf(job.peek());
  if (text !== ours) void keepLast(asLast(text));
}

/** Write the job to the address now rather than in a moment; `leaving`, it may be too late for the address. */
export function writeAddress(leaving = false): void {
  const { hash } = location;
  const text = textOf(job.peek());
  if (hash.slice(1) !== text || !sameJob(history.state)) {
    earlier = [...earlier.slice(1 - BEHIND), hash];
    history.replaceState(sameJob(history.state) ? history.state : spot(), "", `#${text}`);
  }
  keepNow();
  noteNow(text, leaving ? [hash, location.hash] : [location.hash]);
}

/** The address that holds the job as it stands at this moment. */
export function fullAddress(): string {
  return `${location.href.replace(/#.*$/, "")}#${textOf(job.value)}`;
}

/** Put another job in place of this one, with a step back to this one in the browser's history. */
export function openJob(next: Job, unread: readonly string[] = []): void {
  writeAddress();
  const text = textOf(next);
  history.pushState(beginJob(known(text, ({ id }) => chose(id))), "", `#${text}`);
  earlier = [];
  job.value = withShop(next);
  troubles.value = unread;
}

function take(hash: string, number: number | undefined): void {
  const opened = decodeJob(hash);
  if (number !== jobNumber.peek()) beginJob(number);
  earlier = [];
  job.value = withShop(opened.job);
  troubles.value = opened.troubles;
}

/** Go on with a job that was on the page before. */
export function goOn({ id, hash, at }: LastJob): void {
  tookUp({ id, hash, at });
  take(hash, Number(id) || undefined);
}

/** A packed address is written out before anything reads it. */
export async function unpackAddress(): Promise<void> {
  if (!isPacked(location.hash)) return;
  const text = await unpack(location.hash);
  if (!isPacked(text)) history.replaceState(history.state, "", `#${text}`);
}

/** Open the job that the address holds, or what this tab had made of it a moment before it was loaded again. */
export function readAddress(): void {
  const noted = notedHere(location.hash);
  if (noted) tookUp(noted);
  if (noted) take(noted.hash, Number(noted.id) || undefined);
  else take(location.hash, numberOf(history.state) || known(encodeJob(decodeJob(location.hash).job)));
}

let unpacking = false;

/** A person pasted a link or went a step back: what was on the page can be had back. */
function followLink(): void {
  if (location.hash.length <= 1) return;
  if (isPacked(location.hash) && !unpacking) {
    unpacking = true;
    void unpackAddress().then(followLink).finally(() => (unpacking = false));
    return;
  }
  const before = job.peek();
  const text = textOf(before);
  const opened = encodeJob(decodeJob(location.hash).job);
  // A step between places of the job in hand: the address there may be an older one of the same job.
  if (sameJob(history.state) || opened === text) return writeAddress();
  keepNow();
  history.replaceState(beginJob(numberOf(history.state) || known(opened)), "", location.href);
  take(location.hash, jobNumber.peek());
  if (text !== ours) offerUndo(words.link.replaced, () => openJob(before));
}

/** Keep address and job the same, both ways, from now on. */
export function followAddress(): void {
  let first = true;
  effect(() => {
    const text = textOf(job.value);
    // Before anything else can happen: the page may be loaded again while the key is still down.
    if (!first) noteNow(text, [location.hash]);
    first = false;
    clearTimeout(due);
    due = setTimeout(() => writeAddress(), PAUSE);
  });
  // Our own writing makes no such event.
  addEventListener("hashchange", followLink);
  addEventListener("pagehide", () => due && writeAddress(true));
  document.addEventListener("visibilitychange", () => document.hidden && due && writeAddress(true));
}
