import { Segments } from "../parts/Segments";
import { words } from "../words";
import { chooseLook, type Look, look } from "./look";

const LOOKS: readonly Look[] = ["device", "daylight", "dark"];

export function LookSwitch() {
  return (
    <Segments
      name="look"
      legend={words.look.legend}
      choices={LOOKS.map((value) => ({ value, label: words.look[value] }))}
      chosen={look.value}
      onChoose={(value) => chooseLook(value as Look)}
    />
  );
}
