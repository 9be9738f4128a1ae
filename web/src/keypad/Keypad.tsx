import { decimalSign } from "../view/sign";
import { words } from "../words";
import { changeKeys, goToNext, hideKeys, ownKeys, press, wantedKeys, wipe } from "./press";

interface Key {
  readonly shows: string;
  readonly says?: string;
  readonly press: () => void;
  readonly kind?: string;
}

const write = (shows: string, says = "", text = shows): Key => ({ shows, says, press: () => press(text) });

const UNITS: Readonly<Record<string, readonly Key[]>> = {
  length: [write("mm", "", " mm"), write("in", "inch", " in"), write("thou", "", " thou"), write("#", words.keys.number)],
  angle: [write("°", words.keys.degrees), write("′", words.keys.minutes), write("″", words.keys.seconds), write(":", words.keys.to)],
  rate: [write(":", words.keys.to), write("%", words.keys.percent), write("in/ft", words.keys.inFt, " in/ft"), write("°", words.keys.degrees)],
  count: [write(","), write("×", words.keys.times, "x"), write("#", words.keys.number), write("±", words.keys.give)],
};

function keysFor(kind: string): readonly Key[] {
  const units = UNITS[kind] ?? UNITS["length"] ?? [];
  const [first, second, third, fourth] = units as [Key, Key, Key, Key];
  const sign = decimalSign.value;
  return [
    write("7"), write("8"), write("9"), { shows: "⌫", says: words.keys.wipe, press: wipe }, first,
    write("4"), write("5"), write("6"), write("+", words.keys.plus), second,
    write("1"), write("2"), write("3"), write("−", words.keys.minus, "-"), third,
    write(sign, sign === "." ? words.keys.point : words.keys.comma), write("0"), write("/", words.keys.slash), write("␣", words.keys.space, " "), fourth,
    { shows: "‹", says: words.keys.back, press: () => goToNext(document.activeElement, true), kind: "move" },
    { shows: words.keys.letters, says: words.keys.device, press: () => changeKeys(false), kind: "move" },
    { shows: words.keys.done, press: () => hideKeys(), kind: "move" },
    { shows: words.keys.next, press: () => goToNext(document.activeElement), kind: "next" },
  ];
}

/** The page's own keys for a quantity; the field keeps the focus, so paste and hardware keys go on working. */
export function Keypad() {
  const kind = wantedKeys.value;
  if (!ownKeys.value || kind === "") return null;
  return (
    <div class="keypad" role="group" aria-label={words.keys.legend} onPointerDown={(event) => event.preventDefault()} onMouseDown={(event) => event.preventDefault()}>
      {keysFor(kind).map((key) => (
        <button key={key.shows} type="button" tabIndex={-1} class={key.kind ? `key ${key.kind}` : "key"} aria-label={key.says ? (/\w/.test(key.shows) ? `${key.shows}, ${key.says}` : key.says) : undefined} onClick={key.press}>
          {key.shows}
        </button>
      ))}
    </div>
  );
}
