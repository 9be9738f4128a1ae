import type { Sheet, Step } from "../contract";

/** Steps that one operation at the machine holds. */
export interface Phase {
  readonly name: string;
  readonly steps: readonly Step[];
}

/** The steps in the order of doing; of an answer without a route, those of its stages one after another. */
export function routeOf(sheet: Sheet): readonly Step[] {
  return sheet.route?.length ? sheet.route : sheet.stages.flatMap(({ steps = [] }) => steps);
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
