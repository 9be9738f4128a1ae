/** What fits on A4 and on Letter alike, in millimetres, inside the margins that paper.css sets. */
export const UPRIGHT = { wide: 186, tall: 250 } as const;
export const TABLE = { wide: 194, tall: 258 } as const;
export const LENGTHWISE = { wide: 262, tall: 188 } as const;

const PIXELS = 96 / 25.4;

/** A measure of the sheet's look that may be larger or smaller: a custom property, its unit and its bounds. */
export interface Range {
  readonly name: string;
  readonly unit: string;
  readonly least: number;
  readonly most: number;
  readonly step: number;
}

/**
 * Give the measure the largest value at which what stands in `box` fits one sheet; its least where none does. The box's
 * CSS takes every measure from its own letters, so that what is measured here is what goes on paper.
 */
export function fit(box: HTMLElement, sheet: { readonly wide: number; readonly tall: number }, { name, unit, least, most, step }: Range): void {
  box.classList.add("measuring");
  box.style.width = `${sheet.wide}mm`;
  const fits = (size: number) => {
    box.style.setProperty(name, `${size}${unit}`);
    return box.scrollHeight <= sheet.tall * PIXELS && box.scrollWidth <= sheet.wide * PIXELS + 1;
  };
  let [low, high] = [least, most];
  if (fits(most)) low = most;
  while (high - low > step) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  box.style.setProperty(name, `${low}${unit}`);
  box.style.removeProperty("width");
  box.classList.remove("measuring");
}
