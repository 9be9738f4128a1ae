import type { Figure } from "../contract";
import { PrintButton } from "../paper/PrintButton";
import { TableView } from "../parts/Table";
import { words } from "../words";
import { isOfNow, type Run, runOf, stopWork, workOut } from "./later";

function said(run: Run, now: boolean): string {
  if (!now) return words.later.outOfDate;
  if (run.end === "failed") return words.later.failed(run.asked, run.keys.length);
  if (run.end === "stopped") return words.later.stopped(run.asked, run.keys.length);
  return run.end === "done" ? words.later.done(run.rows.length) : "";
}

function offered(run: Run | undefined, now: boolean, all: number): string {
  if (!run) return words.later.workOut(all);
  if (!now || run.end === "done") return words.later.again;
  return words.later.others(run.keys.length - run.asked);
}

/** A table whose rows are worked out on request, some at a time, so that typing never waits for them. */
export function LaterTable({ figure }: { readonly figure: Figure }) {
  const all = figure.later?.length ?? 0;
  const run = runOf(figure.id);
  const now = run !== undefined && isOfNow(run);
  const running = run?.end === "running" && now;
  const whole = run?.end === "done" && now;
  const problems = [...new Set((run?.problems ?? []).map(({ message, way_out }) => `${message} ${way_out ?? ""}`))];
  const table = { columns: run?.columns ?? [], rows: run?.rows ?? [] };
  return (
    <div class="later" aria-busy={running}>
      {running && (
        <div class="later-going">
          <progress value={run.asked} max={run.keys.length} aria-label={figure.label} />
          <span>{words.later.progress(run.asked, run.keys.length)}</span>
          <button type="button" onClick={() => stopWork(figure.id)}>
            {words.later.stop}
          </button>
        </div>
      )}
      <p role="status" class="said">{run && said(run, now)}</p>
      {!running && (
        <div class="buttons">
          {!whole && (
            <button type="button" class="strong" onClick={() => void workOut(figure)}>
              {offered(run, now, all)}
            </button>
          )}
          {now && table.rows.length > 0 && <PrintButton figure={figure} table={table} />}
        </div>
      )}
      {problems.length > 0 && now && (
        <ul class="later-problems">
          {problems.map((problem) => (
            <li key={problem}>{problem}</li>
          ))}
        </ul>
      )}
      {table.rows.length > 0 && (
        <div class={now ? undefined : "out-of-date"}>
          <TableView table={table} label={figure.label} long />
        </div>
      )}
    </div>
  );
}
