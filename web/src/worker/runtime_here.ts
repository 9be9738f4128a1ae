/** The runtime as a part of this program: in the page that is one file nothing can be imported from beside it. */
import { loadPyodide as load } from "pyodide";
// @ts-expect-error a program without types: what the runtime would otherwise import by its address
import createPyodideModule from "pyodide/pyodide.asm.mjs";

export const loadPyodide: typeof load = (options) => load({ ...options, createPyodideModule } as typeof options);
