/**
 * The page as one file: what is otherwise fetched lies in it, packed, and the runtime is a part of the worker's own
 * program. A browser starts no worker from a file beside another, and fetches none.
 */

/** Where the worker believes the runtime to lie; what it fetches there is handed out of the file. */
export const HERE = "file:///runtime/";

/** The worker's program among the parts of the file. */
export const PROGRAM = "worker.js";

/** Name -> content, gzip in base64. */
export type FileParts = Readonly<Record<string, string>>;
