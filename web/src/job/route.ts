import type { Sheet, Step } from "../contract";

/** Steps that one operation at the machine holds. */
export interface Phase {
  readonly name: string;
  readonly steps: readonly Step[];
}

/** The steps in the order of doing; of a core that knows no route, those of its stages one after another. */
export function routeOf(sheet: Sheet): readonly Step[] {
  if (sheet.route && sheet.route.length > 0) return sheet.route;
  return sheet.stages.flatMap((stage) =>
    (stage.steps ?? []).map((step, at): Step => {
      if (typeof step !== "string") return { ...step, stage: stage.id };
      // A sentence alone has no name: its place in its stage names it.
      return { id: `${stage.id}.${at + 1}`, phase: stage.title, text: { mm: step, inch: step }, stage: stage.id };
    }),
  );
}

/** Neighbouring steps of one operation together. */
export function phasesOf(steps: readonly Step[]): readonly Phase[] {
  const phases: { name: string; steps: Step[] }[] = [];
  for (const step of steps) {
    const last = phases.at(-1);
    if (last?.name === step.phase) last.steps.push(step);
    else phases.push({ name: step.phase, steps: [step] });
  }
  return phases;
}

/**
 * A step that nobody may pass without having seen it: proof, while there is still metal to correct with. Of each
 * proof it is the step that takes what was seen, or else its last.
 */
export function isGate(step: Step, steps: readonly Step[]): boolean {
  if (step.phase !== "prove") return false;
  const proof = phasesOf(steps).find((phase) => phase.steps.includes(step))?.steps ?? [];
  const entering = proof.find(({ asks = [] }) => asks.length > 0) ?? proof.at(-1);
  return step === entering && step !== steps.at(-1);
}
