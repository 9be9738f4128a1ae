import { go } from "./place";
import { shopPart } from "./shop_part";

/** Bring a field on the page, wherever it is asked, into sight and into the hand. */
export function lookAt(id: string, belongs: string | undefined): void {
  const drawer = id.startsWith("drawer");
  shopPart.value = drawer ? "drawer" : "machine";
  go(belongs === "shop" || drawer ? "shop" : "change");
  focusWhenThere(id, 20);
}

function focusWhenThere(id: string, tries: number): void {
  const field = document.getElementById(`field-${id}`);
  const row = /^drawer\.(\d+)\./.exec(id)?.[1];
  const target = field ?? (row ? document.querySelector<HTMLElement>(`[data-piece="${row}"] button`) : null);
  if (target) {
    target.scrollIntoView({ block: "center" });
    target.focus();
  } else if (tries > 0) setTimeout(() => focusWhenThere(id, tries - 1), 50);
}
