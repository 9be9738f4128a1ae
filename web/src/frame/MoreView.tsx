import { useSignal } from "@preact/signals";
import { JobButtons } from "../begin/JobButtons";
import { chosenUnits, switchUnits } from "../job/units";
import { ownKeys, useOwnKeys } from "../keypad/press";
import { LookSwitch } from "../look/LookSwitch";
import { OfflineState } from "../offline/OfflineState";
import { Segments } from "../parts/Segments";
import { go } from "../view/place";
import { chooseSign, decimalSign } from "../view/sign";
import { words } from "../words";

/** How the page looks and reads, and what it says of itself. */
export function MoreView() {
  return (
    <div id="menu" class="menu">
      <button type="button" class="wide" onClick={() => go("start")}>{words.menu.anew}</button>
      <JobButtons />
      <Segments
        name="units"
        legend={words.units.legend}
        choices={[{ value: "mm", label: words.units.mm }, { value: "inch", label: words.units.inch }]}
        chosen={chosenUnits()}
        onChoose={(value) => switchUnits(value === "inch" ? "inch" : "mm")}
      />
      <LookSwitch />
      <Segments
        name="sign"
        legend={words.sign.legend}
        choices={[{ value: ".", label: words.sign.point }, { value: ",", label: words.sign.comma }]}
        chosen={decimalSign.value}
        onChoose={(value) => chooseSign(value === "," ? "," : ".")}
      />
      <Segments
        name="keys"
        legend={words.keys.choice}
        choices={[{ value: "own", label: words.keys.own }, { value: "device", label: words.keys.devices }]}
        chosen={ownKeys.value ? "own" : "device"}
        onChoose={(value) => useOwnKeys(value === "own")}
      />
      <OfflineState />
      <Words />
    </div>
  );
}

/** Each stands where it is used, a tap away; here is the whole list, for who looks for one. */
function Words() {
  const open = useSignal(false);
  return (
    <div>
      <button type="button" class="group-head" aria-expanded={open.value} onClick={() => (open.value = !open.value)}>
        <span>{words.menu.words}</span>
        <span class="chevron" aria-hidden="true" />
      </button>
      <p class="help">{words.menu.wordsHelp}</p>
      {open.value && (
        <dl class="glossary">
          {words.glossary.map(([term, meaning]) => (
            <div key={term}><dt>{term}</dt><dd>{meaning}</dd></div>
          ))}
        </dl>
      )}
    </div>
  );
}
