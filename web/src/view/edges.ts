/**
 * How much of the place in hand lies under the bar above it and the actions or keys below, for the style: `--above` and
 * `--below`. Both grow and shrink with what they say; the field in hand stays in sight between them.
 */
export function followEdges(): void {
  const [bar, foot, main] = [".band", ".foot", "main"].map((one) => document.querySelector<HTMLElement>(one));
  if (!bar || !foot || !main) return;
  const over = (edge: HTMLElement) => {
    // On a wide screen they stand beside it.
    const beside = edge.getBoundingClientRect().right <= main.getBoundingClientRect().left + 1;
    return beside ? 0 : edge.offsetHeight;
  };
  const measure = () => {
    const { style } = document.documentElement;
    style.setProperty("--above", `${over(bar)}px`);
    style.setProperty("--below", `${over(foot)}px`);
    const field = document.activeElement;
    if (field instanceof HTMLInputElement && main.contains(field)) field.scrollIntoView({ block: "nearest" });
  };
  const watch = new ResizeObserver(measure);
  watch.observe(bar);
  watch.observe(foot);
}
