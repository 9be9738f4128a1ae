/** What page and service worker say to each other. */

/** Ask whether every file of the build is stored on this device; a Stored comes back through the message's port. */
export interface HowStored {
  type: "HOW_STORED";
}

/** Let the waiting version take over; the page reloads when it has. */
export interface SkipWaiting {
  type: "SKIP_WAITING";
}

export type ToServiceWorker = HowStored | SkipWaiting;

export interface Stored {
  type: "STORED";
  /** All files are here: the page works with the network gone. */
  stored: boolean;
  files: number;
  missing: number;
}
