/** The runtime as a part of this program: in the page that is one file nothing can be imported from beside it. */
import { loadPyodide } from "pyodide";
// @ts-expect-error a program without types
import createPyodideModule from "pyodide/pyodide.asm.mjs";

export { loadPyodide, createPyodideModule };
