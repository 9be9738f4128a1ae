import { chosenUnits, switchUnits } from "../job/units";
import { words } from "../words";
import { Menu } from "./Menu";
import { menuOpen } from "../view/menu";
import { Segments } from "../parts/Segments";
import { Status } from "./Status";

export function Header() {
  return (
    <header>
      <div class="header-row">
        <h1>{words.name}</h1>
        <Segments
          name="units"
          legend={words.units.legend}
          legendHidden
          choices={[
            { value: "mm", label: words.units.mm },
            { value: "inch", label: words.units.inch },
          ]}
          chosen={chosenUnits()}
          onChoose={(value) => switchUnits(value === "inch" ? "inch" : "mm")}
        />
        <button
          type="button"
          class="menu-button"
          aria-expanded={menuOpen.value}
          aria-controls={menuOpen.value ? "menu" : undefined}
          onClick={() => (menuOpen.value = !menuOpen.value)}
        >
          {menuOpen.value ? words.menu.close : words.menu.button}
        </button>
      </div>
      <Status />
      {menuOpen.value && <Menu />}
    </header>
  );
}
