import { useEffect, useRef } from "preact/hooks";
import { answer } from "../job/answer";
import { offerUndo } from "../undo/undo";
import { inHand, stackInHand } from "../view/in_hand";
import { words } from "../words";
import { canSpeak, stopSpeaking } from "../speech/speech";
import { awake, canStayAwake, stayAwake } from "./awake";
import { aloud, current, gate, moves, oneAtATime, open, passGate, steps, turnAloud } from "./lathe";
import { markOf, startOver } from "../job/marks";
import { numberOf, piecesOf } from "./numbers";
import { phasesOf } from "../job/route";
import { StepRow } from "./StepRow";
import { StepBody } from "./StepBody";

/** The job to follow at the machine: one step large, or the list of an operation. */
export function LatheView() {
  const sheet = answer.value?.sheet;
  const step = current.value;
  const figure = sheet && step ? numberOf(sheet, step) : "";
  const pieces = sheet && step ? piecesOf(sheet, step) : "";
  useEffect(() => {
    inHand.value = figure;
    stackInHand.value = pieces;
  }, [figure, pieces]);
  useEffect(() => () => stopSpeaking(), []);
  useAt(step?.id ?? "");
  useEffect(() => void (moves.value > 0 && keepInSight()), [moves.value]);
  if (!sheet) return <p class="waiting">{words.status.waiting}</p>;
  if (!step) return <p class="waiting">{words.lathe.none}</p>;
  const done = steps.value.filter((one) => markOf(one) === "done").length;
  return (
    <section class="lathe" aria-label={words.lathe.heading}>
      <div class="lathe-tools">
        <p>{words.lathe.progress(done, steps.value.length)}</p>
        {!oneAtATime.value && <button type="button" onClick={() => whereWasI()}>{words.lathe.where}</button>}
        {canSpeak && <button type="button" aria-pressed={aloud.value} onClick={turnAloud}>{words.lathe.aloud}</button>}
        {canStayAwake && <button type="button" aria-pressed={awake.value} onClick={() => void stayAwake(!awake.value)}>{words.lathe.awake}</button>}
      </div>
      {oneAtATime.value ? <One /> : <List />}
      {gate.value && (!oneAtATime.value || step === gate.value) && (
        <div class="gate" role="note">
          <p><strong>{words.lathe.gate}</strong> {words.lathe.gateWhy(steps.value.length - open.value.length)}</p>
          <button type="button" onClick={passGate}>{words.lathe.pass}</button>
        </div>
      )}
      {done > 0 && <button type="button" class="quiet" onClick={() => offerUndo(words.lathe.startedOver, startOver())}>{words.lathe.startOver}</button>}
    </section>
  );
}

/** Come in at the step in hand; before the whole answer is there, it may not be the one yet. */
function useAt(step: string): void {
  const whole = answer.value?.whole === true;
  const last = useRef("");
  const settled = useRef(false);
  useEffect(() => {
    // Who has something in hand there already is not taken elsewhere.
    if (!settled.current && step !== last.current) whereWasI(() => !document.querySelector(".lathe")?.contains(document.activeElement));
    last.current = step;
    settled.current ||= whole;
  }, [step, whole]);
}

function One() {
  const step = current.value;
  if (!step) return null;
  const phase = phasesOf(steps.value).find((one) => one.steps.includes(step));
  return (
    <article class="one" data-step={step.id} aria-live="polite">
      <h2>{words.lathe.of(words.lathe.phase(step.phase), (phase?.steps.indexOf(step) ?? 0) + 1, phase?.steps.length ?? 1)}</h2>
      <StepRow step={step} large />
      <StepBody step={step} />
    </article>
  );
}

function List() {
  const shown = phasesOf(open.value);
  return (
    <>
      {shown.map((phase, at) => (
        <section key={`${phase.name}${at}`} class="phase" aria-label={words.lathe.phase(phase.name)}>
          <h2>{words.lathe.phase(phase.name)}</h2>
          <ol>
            {phase.steps.map((step) => (
              <li key={step.id} data-step={step.id} class={step === current.value ? "in-hand" : undefined}>
                <StepRow step={step} />
                {step === current.value && <StepBody step={step} />}
              </li>
            ))}
          </ol>
        </section>
      ))}
    </>
  );
}

/** The step in hand, in the list or alone: what the step before it was scrolled by must not hide its words. */
const IN_HAND = ".in-hand, .one";

function afterNextPaint(then: () => void): void {
  requestAnimationFrame(() => requestAnimationFrame(then));
}

/** Another step is in hand: it is brought between the bar and the actions where it is not there yet. */
function keepInSight(): void {
  // The bar says something else with the step: first it has its new height.
  afterNextPaint(() => {
    const step = document.querySelector(IN_HAND);
    const bar = document.querySelector(".band")?.getBoundingClientRect().bottom ?? 0;
    const foot = document.querySelector(".foot")?.getBoundingClientRect().top ?? innerHeight;
    if (!step) return;
    const { top, bottom } = step.getBoundingClientRect();
    if (top < bar || bottom > foot) step.scrollIntoView({ block: "start" });
  });
}

/** Back to the step in hand, wherever the list was scrolled to; if it is still wanted when the step is drawn. */
export function whereWasI(wanted = () => true): void {
  afterNextPaint(() => wanted() && document.querySelector(IN_HAND)?.scrollIntoView({ block: "start" }));
}
