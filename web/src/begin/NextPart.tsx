import { nextPart, partBegun, partOfEarlier, partProved } from "../job/renew";
import { words } from "../words";

/** Begin the next part of its kind; `taken` only where the job was taken up again with another part's measures in it. */
export function NextPart({ taken = false }: { readonly taken?: boolean }) {
  if (!(taken ? partOfEarlier : partBegun).value) return null;
  return (
    <div class="next-part">
      {taken && <p>{words.part.earlier}</p>}
      <button type="button" class="wide" onClick={nextPart}>{partProved.value ? words.part.remember : words.part.next}</button>
    </div>
  );
}
