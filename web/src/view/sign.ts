import { signal } from "@preact/signals";

export type Sign = "." | ",";

const STORED = "conewright-decimal";

function stored(): Sign {
  try {
    return localStorage.getItem(STORED) === "," ? "," : ".";
  } catch {
    return ".";
  }
}

/** The decimal sign that the person reads and types. The core understands both. */
export const decimalSign = signal<Sign>(stored());

export function chooseSign(sign: Sign): void {
  decimalSign.value = sign;
  try {
    localStorage.setItem(STORED, sign);
  } catch {
    // Asked again next time.
  }
}

/** A text of the core in the person's decimal sign; only a point between two digits is one. */
export function inSign(text: string): string {
  return decimalSign.value === "." ? text : text.replace(/(\d)\.(?=\d)/g, "$1,");
}
