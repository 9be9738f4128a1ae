import { signal } from "@preact/signals";
import { get, update } from "idb-keyval";
import { journalled } from "./journal";
import type { LastJob } from "./last_job";
import { passed } from "./later";
import { within } from "./within";

const KEY = "last";
const MOST = 10;
const PATIENCE = 5000;

/** The jobs that were on the page last, the newest first. */
export const lasts = signal<readonly LastJob[]>([]);

function isLast(raw: unknown): raw is LastJob {
  const job = raw as Partial<Record<keyof LastJob, unknown>> | null;
  return typeof job?.id === "string" && typeof job.hash === "string" && typeof job.title === "string" && typeof job.at === "number";
}

/** What the store holds; before there was a list, one job's text. */
function readRecord(raw: unknown): readonly LastJob[] {
  const record = raw as { readonly hash?: unknown; readonly jobs?: unknown } | null | undefined;
  if (Array.isArray(record?.jobs)) return record.jobs.filter(isLast);
  return typeof record?.hash === "string" && record.hash ? [{ id: "first", hash: record.hash, title: "", at: 0 }] : [];
}

function withNewest(jobs: readonly LastJob[], newest: LastJob | null): readonly LastJob[] {
  if (!newest || jobs.some(({ id, at }) => id === newest.id && at >= newest.at)) return jobs;
  return [newest, ...jobs.filter(({ id }) => id !== newest.id)].sort((one, other) => other.at - one.at).slice(0, MOST);
}

/** Each job as this page last took it up or wrote it: what the store holds that is newer is another page's. */
const seen = new Map<string, Seen>();
type Seen = Pick<LastJob, "id" | "hash" | "at">;

/** Jobs changed on this page since. */
const touched = new Set<string>();

/** This page goes on with this job as it stands here. */
export function tookUp(job: Seen): void {
  seen.set(job.id, job);
  touched.delete(job.id);
}

/** The person asked for this job: it is the newest from now on, though nothing of it is changed. */
export function chose(id: string): void {
  seen.delete(id);
}

/** Whether this page has made something of the job that it did not find so. */
export function isNews(id: string, hash: string): boolean {
  if (seen.get(id)?.hash !== hash) touched.add(id);
  return touched.has(id);
}

/** The list with this job as the newest; what another page has made of the same job meanwhile stays beside it. */
function together(there: readonly LastJob[], job: LastJob): readonly LastJob[] {
  const rival = there.find(({ id }) => id === job.id);
  const mine = seen.get(job.id);
  const others = there.filter(({ id }) => id !== job.id);
  if (rival && rival.hash !== job.hash && rival.at > (mine?.at ?? -1)) {
    // Unchanged on this page, it is not the newer of the two.
    if (mine?.hash === job.hash) return there;
    others.unshift({ ...rival, id: String(Date.now() + Math.random()) });
  }
  return [{ ...job, at: there.reduce((at, one) => Math.max(at, one.at + 1), job.at) }, ...others].slice(0, MOST);
}

/** Keep the job as the newest. What the store holds besides is read in the same breath and never written over. */
export async function keepLast(job: LastJob): Promise<void> {
  const before = lasts.peek();
  lasts.value = withNewest(before, job);
  try {
    let jobs: readonly LastJob[] = [];
    await within(PATIENCE, () =>
      update<unknown>(KEY, (raw) => {
        // Cleared under this page: what it remembers is the list.
        jobs = together(raw === undefined ? before : readRecord(raw), job);
        return { ...(typeof raw === "object" ? raw : {}), format: 1, hash: jobs[0]?.hash ?? "", jobs };
      }),
    );
    const written = jobs.find(({ id }) => id === job.id);
    if (written?.hash === job.hash) tookUp(written);
    jobs.forEach(({ at }) => passed(at));
    lasts.value = lasts.peek().filter((one) => one !== job).reduce(withNewest, jobs);
  } catch {
    // A browser that refuses storage still has the job in its address; the kept list says so in words.
  }
}

/** Read the list, with what was typed in the very last moment of an earlier page. Fails where the store does. */
export async function readLasts(): Promise<readonly LastJob[]> {
  const here = lasts.peek();
  try {
    const jobs = readRecord(await within(PATIENCE, () => get<unknown>(KEY)));
    lasts.value = here.reduce<readonly LastJob[]>(withNewest, withNewest(jobs, journalled()));
  } catch {
    lasts.value = withNewest(here, journalled());
  }
  lasts.peek().forEach(({ at }) => passed(at));
  return lasts.value;
}
