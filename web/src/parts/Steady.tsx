import type { ComponentChildren, RefObject } from "preact";
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";

/**
 * For an element whose content may go for a moment, as figures do while an entry is half typed: while
 * `hold` is true it keeps at least the height it had, so that what is beneath does not jump under the thumb.
 */
export function useSteady<Box extends HTMLElement>(hold: boolean): RefObject<Box | null> {
  const place = useRef<Box>(null);
  const height = useRef(0);
  const held = useRef(false);
  held.current = hold;
  useLayoutEffect(() => {
    const box = place.current;
    if (box) box.style.minHeight = hold && height.current > 0 ? `${height.current}px` : "";
  }, [hold]);
  // Told of each height when it is laid out: to ask for it after every change would lay out the page once more each time.
  useEffect(() => {
    const box = place.current;
    if (!box) return;
    const watch = new ResizeObserver(() => {
      if (!held.current) height.current = box.offsetHeight;
    });
    watch.observe(box);
    return () => watch.disconnect();
  }, []);
  return place;
}

export function Steady({ hold, children }: { readonly hold: boolean; readonly children: ComponentChildren }) {
  return (
    <div class="steady" ref={useSteady<HTMLDivElement>(hold)}>
      {children}
    </div>
  );
}
