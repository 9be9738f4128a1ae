import { useLayoutEffect, useRef } from "preact/hooks";
import { decimalSign } from "../view/sign";
import { pictureFrom } from "./svg";

/** A drawing from the core; drawn anew only when its text changes. */
export function Picture({ text, small }: { readonly text: string | undefined; readonly small?: boolean }) {
  const box = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const picture = text ? pictureFrom(text) : null;
    box.current?.replaceChildren(...(picture ? [picture] : []));
  }, [text, decimalSign.value]);
  return text ? <div class={small ? "picture small" : "picture"} ref={box} /> : null;
}
