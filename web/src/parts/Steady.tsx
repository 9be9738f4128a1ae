import type { ComponentChildren, RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

/**
 * For an element whose content may go for a moment, as figures do while an entry is half typed: while
 * `hold` is true it keeps at least the height it had, so that what is beneath does not jump under the thumb.
 */
export function useSteady<Box extends HTMLElement>(hold: boolean): RefObject<Box | null> {
  const place = useRef<Box>(null);
  const height = useRef(0);
  useLayoutEffect(() => {
    const box = place.current;
    if (!box) return;
    box.style.minHeight = hold && height.current > 0 ? `${height.current}px` : "";
    if (!hold) height.current = box.offsetHeight;
  });
  return place;
}

export function Steady({ hold, children }: { readonly hold: boolean; readonly children: ComponentChildren }) {
  return (
    <div class="steady" ref={useSteady<HTMLDivElement>(hold)}>
      {children}
    </div>
  );
}
