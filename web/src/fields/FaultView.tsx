import type { Fault } from "../contract";
import { words } from "../words";

interface Props {
  readonly fault: Fault;
  readonly id: string;
  readonly onUse: (text: string) => void;
}

/** What is wrong with an entry, where in it, and what would do instead. */
export function FaultView({ fault, id, onUse }: Props) {
  // The core counts in characters, JavaScript in UTF-16 units.
  const characters = [...fault.text];
  const marked = characters.slice(fault.start, fault.end).join("");
  return (
    <div class="fault">
      <p id={id} role="alert">
        {fault.message}
        {marked && (
          <span class="fault-text">
            {characters.slice(0, fault.start).join("")}
            <mark>{marked}</mark>
            {characters.slice(fault.end).join("")}
          </span>
        )}
        {fault.way_out && <span class="way-out">{fault.way_out}</span>}
      </p>
      {(fault.offers ?? []).length > 0 && (
        <div class="offers">
          {fault.offers?.map((offer) => (
            <button type="button" key={offer} onClick={() => onUse(offer)}>
              {words.sheet.use(offer)}
            </button>
          ))}
        </div>
      )}
    </div>
  );
}
