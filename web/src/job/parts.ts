import type { Field, Figure, Sheet, Stage, Step } from "../contract";
import { readSheet } from "./request";

/**
 * A stage with what differs from the one before; in a list an id stands for what was there under it, among the rows of a
 * field a number for the row that was in this place.
 */
interface Patch {
  readonly id: string;
  readonly version: number;
  readonly title?: string;
  readonly line?: string;
  readonly drawing?: string;
  readonly fields?: readonly (Rows | string)[];
  readonly figures?: readonly (Figure | string)[];
  readonly steps?: readonly (Step | string)[];
  readonly cautions?: readonly unknown[];
}

type Rows = Omit<Field, "rows"> & { readonly rows?: readonly (readonly Field[] | number)[] };

/** A part of an answer, as calc/sitting hands it out. */
interface Part {
  readonly part: number;
  readonly whole: boolean;
  /** Complete in itself. */
  readonly sheet?: unknown;
  readonly stages?: readonly Patch[];
  readonly others?: Readonly<Record<string, unknown>> & {
    readonly order?: readonly string[];
    readonly route?: readonly (readonly [string, number])[];
  };
}

/** The sheet as far as it is answered. */
export interface Put {
  readonly sheet: Sheet;
  /** Nothing more is to come: all of it answers the same request. */
  readonly whole: boolean;
}

/** The rows, those that are as they were taken from their places in the ones before. */
function placed(rows: readonly unknown[], before: unknown): readonly unknown[] {
  const old: readonly unknown[] = Array.isArray(before) ? before : [];
  return rows.map((row) => (typeof row === "number" ? old[row] : row));
}

function withRows(field: Rows, before: Field | undefined): Field {
  return (field.rows ? { ...field, rows: placed(field.rows, before?.rows) } : field) as Field;
}

const LISTS = ["fields", "figures", "steps", "cautions"] as const;

/** Puts the parts of answers together. What did not change stays the very same object, so that it is not drawn again. */
export class Parts {
  private part = 0;
  private stages = new Map<string, Stage>();
  /** How often each was put: no part of what the page shows and keeps, or one answer would differ from the next. */
  private versions = new Map<string, number>();
  private others: Record<string, unknown> = {};
  private drawer: Sheet["drawer"] = [];
  private steps = new WeakMap<Step, Step>();

  /** The sheet with this part in it; throws where it is none, or does not follow the one before. */
  put(text: string): Put {
    const part = JSON.parse(text) as Partial<Part> | null;
    if (!part || part.part === undefined) return { sheet: readSheet(part), whole: true };
    if (part.sheet !== undefined) return { sheet: readSheet(part.sheet), whole: true };
    if (part.part === 1) {
      this.stages.clear();
      this.versions.clear();
      this.others = {};
    } else if (part.part !== this.part + 1) throw new Error("a part of the answer is missing");
    this.part = part.part;
    for (const patch of part.stages ?? []) this.putStage(patch);
    const { drawer } = this.others;
    this.others = { ...this.others, ...part.others };
    if (Array.isArray(part.others?.["drawer"])) this.others["drawer"] = placed(part.others["drawer"], drawer);
    const fresh = readSheet({ ...this.others, stages: this.inOrder(), route: this.route() });
    if (drawer === undefined || this.others["drawer"] !== drawer) this.drawer = fresh.drawer;
    return { sheet: { ...fresh, drawer: this.drawer }, whole: part.whole === true };
  }

  private putStage({ version, ...patch }: Patch): void {
    const old = this.stages.get(patch.id);
    if (version !== (this.versions.get(patch.id) ?? 0) + 1) throw new Error(`a part of ${patch.id} is missing`);
    this.versions.set(patch.id, version);
    const fresh: Record<string, unknown> = { drawing: "", ...old, ...patch };
    for (const name of LISTS) {
      const items = patch[name];
      if (!items) continue;
      const known = new Map((old?.[name] ?? []).map((item) => [(item as { id?: string }).id, item]));
      fresh[name] = items.map((item) => {
        if (typeof item === "string") return known.get(item);
        return name === "fields" ? withRows(item as Rows, known.get((item as Rows).id) as Field | undefined) : item;
      });
    }
    this.stages.set(patch.id, fresh as unknown as Stage);
  }

  private inOrder(): Stage[] {
    const order = (this.others["order"] ?? []) as readonly string[];
    return order.flatMap((id) => this.stages.get(id) ?? []);
  }

  private route(): Step[] {
    const places = (this.others["route"] ?? []) as readonly (readonly [string, number])[];
    return places.flatMap(([stage, place]) => {
      const step = this.stages.get(stage)?.steps?.[place];
      if (!step || typeof step === "string") return [];
      const known = this.steps.get(step) ?? { ...step, stage };
      this.steps.set(step, known);
      return known;
    });
  }
}
