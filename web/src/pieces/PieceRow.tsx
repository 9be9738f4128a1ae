import type { Piece } from "../contract";
import { words } from "../words";
import { isAway, turnAway } from "./hand";

interface Props {
  readonly piece: Piece;
  readonly index: number;
  readonly used: boolean;
  readonly wrong: boolean;
  readonly open: boolean;
  readonly onToggle: () => void;
}

export function pieceName(piece: Piece, index: number): string {
  return piece.name || piece.size || words.pieces.unnamed(index + 1);
}

/** One piece on one line: its name, its size as known best, how many; and whether it is to hand, by one tap. */
export function PieceRow({ piece, index, used, wrong, open, onToggle }: Props) {
  const away = isAway(piece);
  const many = piece.count !== "" && piece.count !== "1" && !away;
  const marks = [wrong && words.pieces.look, used && words.pieces.used, !piece.measured && words.pieces.unmeasured].filter(Boolean);
  return (
    <div class={`piece-row${away ? " away" : ""}${used ? " used" : ""}`}>
      <button type="button" class="piece-open" aria-expanded={open} onClick={onToggle}>
        <span class="piece-name">
          {pieceName(piece, index)}
          {marks.length > 0 && <span class="piece-marks">{marks.join(" · ")}</span>}
        </span>
        <span class="piece-size">
          {piece.measured || piece.size}
          {many && ` ${words.pieces.times(piece.count)}`}
        </span>
      </button>
      <button type="button" class="piece-hand" aria-pressed={!away} aria-label={words.pieces.hand(pieceName(piece, index))} onClick={() => turnAway(index)}>
        <span aria-hidden="true">{away ? "–" : "✓"}</span>
      </button>
    </div>
  );
}
