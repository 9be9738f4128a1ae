import type { FromWorker, Ready, ToWorker } from "../worker/messages";
import type { Engine } from "./engine";

/** So long a start may bring nothing at all, neither bytes nor a further step: a slow line is no dead one [ms]. */
const SILENCE = 60_000;
const ANSWER_LIMIT = 10_000;

export interface Bridge<Tag> {
  /**
   * Ask for the sheet; a newer question takes the place of one that is still waiting to be sent, and of what is still to
   * come of an older one's answer. `look` names the stages that come first.
   */
  ask(request: string, tag: Tag, look?: string): void;
  /** Ask for the whole sheet even if the engine had failed: it is started anew if need be. */
  again(request: string, tag: Tag): void;
  /**
   * Ask something beside the sheet, in its turn; a waiting question for the sheet goes first.
   * The promise fails with a Lost when the worker ended before it answered.
   */
  aside(request: string): Promise<string>;
}

/** A question asked aside whose answer will not come. */
export class Lost extends Error {}

interface Question {
  readonly request: string;
  /** Of a question for the sheet, which is answered in parts. */
  readonly look?: string;
  readonly anew?: boolean;
  readonly heard: (response: string) => void;
  /** No answer will come; `late` when it was cut off for taking too long. */
  readonly lost: (late: boolean) => void;
}

interface Options<Tag> {
  readonly start: () => Worker;
  readonly onState: (state: Engine) => void;
  readonly onReady?: (ready: Ready) => void;
  readonly onAnswer: (response: string, tag: Tag) => void;
  /** A call took too long; its worker is gone and another is starting. */
  readonly onCutOff: () => void;
}

/** One call at a time to a worker that may be stuck: at most one question in flight, the newest waiting. */
export function createBridge<Tag>(options: Options<Tag>): Bridge<Tag> {
  let worker: Worker | null = null;
  let ready = false;
  let limit: ReturnType<typeof setTimeout> | undefined;
  let waiting: { request: string; tag: Tag; look: string; anew: boolean } | null = null;
  /** Sent, and not answered yet. */
  let flight: (Question & { readonly id: number }) | null = null;
  /** Answered in part: the rest is coming. */
  let resting: (Question & { readonly id: number }) | null = null;
  let lastId = 0;
  const asides: Question[] = [];

  function stop(late = false): void {
    clearTimeout(limit);
    worker?.terminate();
    worker = null;
    ready = false;
    const { lost } = flight ?? resting ?? {};
    flight = null;
    resting = null;
    lost?.(late);
  }

  function fail(reason: string): void {
    stop();
    for (const { lost } of asides.splice(0)) lost(false);
    options.onState({ kind: "failed", reason });
  }

  function wait(): void {
    clearTimeout(limit);
    limit = setTimeout(() => fail("nothing came of it for a minute"), SILENCE);
  }

  function start(): void {
    stop();
    options.onState({ kind: "loading", step: "" });
    wait();
    const fresh = options.start();
    worker = fresh;
    fresh.onmessage = (event: MessageEvent<FromWorker>) => {
      if (worker === fresh) hear(event.data);
    };
    fresh.onerror = (event) => {
      if (worker === fresh) fail(event.message || "its program could not be loaded");
    };
  }

  function hear(message: FromWorker): void {
    if (message.kind === "loading") {
      wait();
      options.onState({ kind: "loading", step: message.step });
    } else if (message.kind === "failed") fail(message.reason);
    else if (message.kind === "ready") {
      clearTimeout(limit);
      ready = true;
      options.onState({ kind: "ready" });
      options.onReady?.(message);
      send();
    } else if (message.kind === "kept") return;
    else if (message.id === flight?.id) {
      const { heard, look } = flight;
      if (look !== undefined) resting = message.more ? flight : null;
      flight = null;
      patience();
      heard(message.response);
      if (message.more) sayWhenDrawn(message.id);
      send();
    } else if (message.id === resting?.id) {
      const { heard } = resting;
      if (!message.more) resting = null;
      patience();
      heard(message.response);
      if (message.more) sayWhenDrawn(message.id);
    }
  }

  /** The worker goes on with an answer when what came of it is drawn. */
  function sayWhenDrawn(id: number): void {
    const to = worker;
    requestAnimationFrame(() => setTimeout(() => to === worker && to?.postMessage({ kind: "drawn", id } satisfies ToWorker)));
  }

  /** Give the worker its time for what is still to come. */
  function patience(): void {
    clearTimeout(limit);
    if (!flight && !resting) return;
    limit = setTimeout(() => {
      // The question that hung is not asked again by itself, or the page would hang for ever.
      stop(true);
      start();
    }, ANSWER_LIMIT);
  }

  /** What goes to the worker next: the sheet before anything asked aside. */
  function next(): Question | undefined {
    if (!waiting) return asides.shift();
    const { tag, ...question } = waiting;
    waiting = null;
    return { ...question, heard: (response) => options.onAnswer(response, tag), lost: (late) => late && options.onCutOff() };
  }

  function send(): void {
    if (!worker || !ready || flight) return;
    const question = next();
    if (!question) return;
    const { request, look, anew } = question;
    flight = { id: ++lastId, ...question };
    patience();
    const sheet = look === undefined ? {} : { look, anew: anew ?? false };
    worker.postMessage({ kind: "work", id: flight.id, request, ...sheet } satisfies ToWorker);
  }

  start();
  return {
    ask(request, tag, look = "") {
      waiting = { request, tag, look, anew: false };
      send();
    },
    again(request, tag) {
      waiting = { request, tag, look: "", anew: true };
      if (worker) send();
      else start();
    },
    aside(request) {
      return new Promise((heard, fail) => {
        const lost = () => fail(new Lost());
        if (!worker) return lost();
        asides.push({ request, heard, lost });
        send();
      });
    },
  };
}
