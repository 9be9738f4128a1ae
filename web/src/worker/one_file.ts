/**
 * The page as one file: what is otherwise fetched lies in it, packed, and the runtime is a part of the worker's own
 * program. A browser starts no worker from a file beside another, and fetches none.
 */

/** Where the worker believes the runtime to lie; what it fetches there is handed out of the file. */
export const HERE = "file:///runtime/";

/** The worker's program among the parts of the file: plain, in this order. From a file some engines take no further script. */
export const PROGRAM = ["boot.js", "worker.js"] as const;

/** Name -> content, gzip in base64, but for the program. */
export type FileParts = Readonly<Record<string, string>>;
