import type { Piece } from "../contract";
import { words } from "../words";

interface Props {
  readonly piece: Piece;
  readonly index: number;
  readonly wrong: boolean;
  readonly open: boolean;
  readonly onToggle: () => void;
}

export function pieceName(piece: Piece, index: number): string {
  return piece.name || piece.size || words.pieces.unnamed(index + 1);
}

/** One piece on one line: its name, its size as known best, how many. */
export function PieceRow({ piece, index, wrong, open, onToggle }: Props) {
  const many = piece.count !== "" && piece.count !== "1";
  return (
    <button type="button" class="piece-row" aria-expanded={open} onClick={onToggle}>
      <span class="piece-name">{pieceName(piece, index)}</span>
      {wrong && <span class="piece-wrong">{words.pieces.look}</span>}
      <span class="piece-size">
        {piece.measured || piece.size}
        {many && ` ${words.pieces.times(piece.count)}`}
      </span>
      <span class="chevron" aria-hidden="true" />
    </button>
  );
}
