import type { RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

/**
 * A piece just opened takes the focus, so that a new one can be typed at once: in the same moment, or, where
 * its fields come only with the answer, as soon as they are there. Never out of another field: a person who
 * has gone on to type elsewhere would lose what they type.
 */
export function useEditorFocus(list: RefObject<HTMLElement | null>, open: number): void {
  const due = useRef(-1);
  useLayoutEffect(() => {
    due.current = open;
  }, [open]);
  useLayoutEffect(() => {
    if (due.current < 0) return;
    const first = list.current?.querySelector<HTMLElement>(".piece-editor input");
    if (!first) return;
    due.current = -1;
    if (!document.activeElement?.matches("input, .choice, textarea")) first.focus();
  });
}
