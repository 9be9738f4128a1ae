/**
 * What page and worker say to each other. One worker holds one Python; every request is JSON text for the core and
 * every response is JSON text from it, unread on the way.
 */

/** The name of a worker that is to trust no answer which the browser remembers. */
export const ANEW = "anew";

/** From the page: answer this request. Requests that come before "ready" wait their turn. */
export interface Work {
  kind: "work";
  id: number;
  request: string;
  /**
   * Given for the sheet itself: it is answered in parts that hold only what has changed, what is looked at first. Names
   * stages, with blanks between; every stage where none is named.
   */
  look?: string;
  /** The parts handed out so far are not on the page: start from nothing. */
  anew?: boolean;
}

/** From the page: the part of this answer that came last is on the screen; what is left may go on. */
export interface Drawn {
  kind: "drawn";
  id: number;
}

export type ToWorker = Work | Drawn;

/** A step of starting, in words for the person. */
export interface Loading {
  kind: "loading";
  step: string;
}

/** Python runs. */
export interface Ready {
  kind: "ready";
  python: string;
  /** From the start of the worker. */
  milliseconds: number;
  /** Memory of the runtime in bytes. */
  memory: number;
  /** Taken up from a snapshot kept on this device. */
  snapshot: boolean;
}

/** From a worker that was to make a snapshot: it is kept, or need not be. */
export interface Kept {
  kind: "kept";
}

/** Python could not be started, or gave no answer to a request; the worker is of no use any more. */
export interface Failed {
  kind: "failed";
  reason: string;
}

/** The answer to the request with this id. */
export interface Answer {
  kind: "answer";
  id: number;
  response: string;
  /** Further parts of this answer follow, unless a newer request for the sheet comes before them. */
  more?: boolean;
}

export type FromWorker = Loading | Ready | Failed | Answer | Kept;
