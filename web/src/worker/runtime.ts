import type { loadPyodide, PyodideAPI } from "pyodide";

export type Options = NonNullable<Parameters<typeof loadPyodide>[0]>;

/** The runtime's two programs: what starts it, and what makes the module that it runs. */
export interface Runtime {
  /** It takes the second program from us: by itself it would ask for it by its name as published. */
  readonly loadPyodide: (options: Options & { createPyodideModule: unknown }) => Promise<PyodideAPI>;
  readonly createPyodideModule: unknown;
}
