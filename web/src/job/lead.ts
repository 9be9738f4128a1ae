import type { Caution, Field, Figure, Pair, Sheet, Stage, Step } from "../contract";
import { allFields } from "./faults";
import { markOf } from "./marks";

/** What the first screen and the bar above every other one show, found in a sheet. */
export interface Lead {
  readonly title: Pair;
  /** The number to set, or null while it cannot be known. */
  readonly figure: Figure | null;
  readonly label: Pair;
  readonly words: readonly Pair[];
  readonly stack: Figure | null;
  readonly rows: readonly { readonly id: string; readonly label: Pair; readonly text: Pair }[];
  readonly pictures: readonly string[];
  readonly danger: Caution | null;
  readonly stage: Stage | null;
  /** Whether the step that this number is for is ticked. */
  readonly done: boolean;
  /** The field that wants an answer, or another one, before there is a number. */
  readonly wants: Field | null;
}

const same = (text: string): Pair => ({ mm: text, inch: text });

export function figureIn(sheet: Sheet, id: string): Figure | null {
  for (const { figures = [] } of sheet.stages) {
    const found = figures.find((figure) => figure.id === id);
    if (found) return found;
  }
  return null;
}

export function fieldIn(sheet: Sheet, id: string): Field | null {
  for (const stage of sheet.stages) {
    const found = (stage.fields ?? []).find((field) => field.id === id);
    if (found) return found;
  }
  return null;
}

const isNumber = (figure: Figure) => typeof figure.value === "number" && figure.shown !== undefined && figure.shown.mm !== "";

function firstFault(sheet: Sheet): Field | null {
  return sheet.stages.flatMap(allFields).find(({ wrong }) => wrong) ?? null;
}

function firstDanger(sheet: Sheet): Caution | null {
  const all = [...(sheet.cautions ?? []), ...sheet.stages.flatMap((stage) => stage.cautions ?? [])];
  return all.find(({ level }) => level === "danger") ?? null;
}

function picturesOf(...parts: readonly (Stage | Figure | Step | null)[]): string[] {
  return parts.map((part) => part?.drawing).filter((text): text is string => Boolean(text));
}

/** As the core says it; of a core that does not, the first lead figure and what stands beside it. */
export function leadOf(sheet: Sheet): Lead {
  const { glance } = sheet;
  const lines = sheet.stages.filter(({ line }) => line);
  if (!glance) {
    const stage = sheet.stages.find(({ figures = [] }) => figures.some((one) => one.lead && isNumber(one))) ?? null;
    const figure = stage?.figures?.find((one) => one.lead && isNumber(one)) ?? null;
    const texts = stage?.figures?.filter((one) => typeof one.value === "string" && !one.table) ?? [];
    const stack = stage?.figures?.find((one) => one.drawing && one !== figure) ?? null;
    return {
      title: same(lines[0]?.line ?? ""),
      figure,
      label: same(figure?.label ?? ""),
      words: texts.slice(0, 2).flatMap(({ shown }) => (shown ? [shown] : [])),
      stack,
      rows: [],
      pictures: picturesOf(stage, stack),
      danger: firstDanger(sheet),
      stage,
      done: false,
      wants: firstFault(sheet),
    };
  }
  const found = figureIn(sheet, glance.lead);
  const stage = sheet.stages.find(({ figures = [] }) => figures.some(({ id }) => id === glance.lead)) ?? null;
  const stack = figureIn(sheet, glance.stack);
  const step = sheet.route?.find(({ id }) => id === glance.step) ?? null;
  return {
    title: glance.title,
    figure: found && isNumber(found) ? found : null,
    label: glance.label,
    words: glance.words,
    stack,
    rows: glance.rows.map(({ figure, label, text }) => ({ id: figure, label, text })),
    pictures: step?.drawing ? picturesOf(step, stack, stage) : picturesOf(stage, stack),
    danger: glance.danger ? { level: "danger", text: glance.danger } : null,
    stage,
    done: step !== null && markOf(step) === "done",
    wants: firstFault(sheet) ?? (glance.wants ? fieldIn(sheet, glance.wants) : null),
  };
}
