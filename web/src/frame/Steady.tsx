import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

interface Props {
  /** While true the place keeps at least the height it had, so that what is beneath does not jump under the thumb. */
  readonly hold: boolean;
  readonly children: ComponentChildren;
}

/** A place whose content may go for a moment, as figures do while an entry is half typed. */
export function Steady({ hold, children }: Props) {
  const place = useRef<HTMLDivElement>(null);
  const height = useRef(0);
  useLayoutEffect(() => {
    const box = place.current;
    if (!box) return;
    box.style.minHeight = hold ? `${height.current}px` : "";
    if (!hold) height.current = box.offsetHeight;
  });
  return (
    <div class="steady" ref={place}>
      {children}
    </div>
  );
}
