/** Text to and from the readable part of an address. */

/** What may stand as it is: it needs no escape after "#" and no meaning of ours hangs on it. */
const PLAIN: readonly (readonly [string, string])[] = [
  ["%20", "+"],
  ["%2C", ","],
  ["%2F", "/"],
  ["%3A", ":"],
  ["%3B", ";"],
  ["%40", "@"],
  ["%24", "$"],
  ["%3F", "?"],
  ["%7C", "|"],
  ["%5C", "\\"],
];

export function escapeText(text: string): string {
  // A lone half of a character pair, as a torn paste leaves, cannot be written in an address.
  let out = encodeURIComponent(text.replace(/[\uD800-\uDFFF]/gu, "\uFFFD"));
  for (const [code, plain] of PLAIN) out = out.replaceAll(code, plain);
  return out;
}

/** The text again, or null when its percent signs make no sense. */
export function unescapeText(text: string): string | null {
  try {
    return decodeURIComponent(text.replaceAll("+", " "));
  } catch {
    return null;
  }
}

/** Parts in one text with bars between; a bar or backslash inside a part gets a backslash before it. */
export function joinParts(parts: readonly string[]): string {
  return parts.map((part) => part.replace(/[\\|]/g, "\\$&")).join("|");
}

export function splitParts(text: string): string[] {
  const parts = [""];
  let literal = false;
  for (const character of text) {
    const last = parts.length - 1;
    if (!literal && character === "\\") literal = true;
    else if (!literal && character === "|") parts.push("");
    else {
      parts[last] += character;
      literal = false;
    }
  }
  if (literal) parts[parts.length - 1] += "\\";
  return parts;
}
