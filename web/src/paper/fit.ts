/** What fits on A4 and on Letter alike, in millimetres, inside the margins that paper.css sets. */
export const UPRIGHT = { wide: 186, tall: 250 } as const;
export const TABLE = { wide: 194, tall: 258 } as const;
export const LENGTHWISE = { wide: 262, tall: 188 } as const;

const PIXELS = 96 / 25.4;

/**
 * The largest size of letters, in points, at which what stands in `box` fits one sheet; `least` where none does.
 * Its CSS takes every measure from its own letters, so that what is measured here is what goes on paper.
 */
export function fit(box: HTMLElement, sheet: { readonly wide: number; readonly tall: number }, least: number, most: number): number {
  box.classList.add("measuring");
  box.style.width = `${sheet.wide}mm`;
  const fits = (size: number) => {
    box.style.setProperty("--points", `${size}pt`);
    return box.scrollHeight <= sheet.tall * PIXELS && box.scrollWidth <= sheet.wide * PIXELS + 1;
  };
  let [low, high] = [least, most];
  if (fits(most)) low = most;
  while (high - low > 0.1) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  box.style.setProperty("--points", `${low}pt`);
  box.style.removeProperty("width");
  box.classList.remove("measuring");
  return low;
}
