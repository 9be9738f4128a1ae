import { signal } from "@preact/signals";
import { get, update } from "idb-keyval";
import { journalled } from "./journal";
import type { LastJob } from "./last_job";
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

/** Keep the job as the newest. What the store holds besides is read in the same breath and never written over. */
export async function keepLast(job: LastJob): Promise<void> {
  lasts.value = withNewest(lasts.value, job);
  try {
    await within(PATIENCE, () =>
      update<unknown>(KEY, (raw) => {
        // Cleared under this page: what it remembers is the list.
        const jobs = withNewest(raw === undefined ? lasts.peek() : readRecord(raw), job);
        return { ...(typeof raw === "object" ? raw : {}), format: 1, hash: jobs[0]?.hash ?? "", jobs };
      }),
    );
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
  return lasts.value;
}
