import { ownKeys, wantedKeys } from "../keypad/press";
import { back, current, doneAndNext, oneAtATime, showOne } from "../lathe/lathe";
import { markOf } from "../job/marks";
import { go, place, type Place } from "../view/place";
import { words } from "../words";

function Go({ to, said }: { readonly to: Place; readonly said: string }) {
  const here = place.value === to;
  return (
    <button type="button" aria-current={here ? "page" : undefined} onClick={() => go(here ? "card" : to)}>
      {said}
    </button>
  );
}

/** At most four large actions within the thumb's reach. */
export function Dock() {
  if (ownKeys.value && wantedKeys.value !== "") return null;
  if (place.value === "lathe") return <LatheDock />;
  return (
    <nav class="dock" aria-label={words.dock.legend}>
      {place.value === "card" ? <Go to="lathe" said={words.dock.lathe} /> : <Go to="card" said={words.dock.card} />}
      <Go to="change" said={words.dock.change} />
      <Go to="shop" said={words.dock.shop} />
      <Go to="kept" said={words.dock.kept} />
    </nav>
  );
}

function LatheDock() {
  const step = current.value;
  return (
    <nav class="dock" aria-label={words.dock.legend}>
      <Go to="card" said={words.dock.card} />
      <button type="button" onClick={() => showOne(!oneAtATime.value)}>{oneAtATime.value ? words.lathe.list : words.lathe.one}</button>
      <button type="button" onClick={back}>{words.lathe.back}</button>
      <button type="button" class="strong" onClick={doneAndNext}>{step && markOf(step) === "done" ? words.lathe.next : words.lathe.done}</button>
    </nav>
  );
}
