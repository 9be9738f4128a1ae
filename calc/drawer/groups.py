"""Equal pieces of a drawer gathered, in an order that does not depend on how the drawer is sorted."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawer.pieces import LEAF, ROUND, SHAPES, Piece

MOST_GROUPS = 1024


@dataclass(frozen=True, slots=True)
class Groups:
    """The groups of equal pieces (same size, shape and doubt), by size; each list has one entry a group.

    sizes: [nm], ascending. variances: of one piece [thousandths of nm²]. counts: how many pieces there are.
    rounds, leaves: whether they are round, or leaves. members: the pieces themselves in drawer order.
    left_out: whether there were more groups than can be searched, so that the farthest in size were dropped.
    """

    sizes: list[int]
    variances: list[int]
    counts: list[int]
    rounds: list[bool]
    leaves: list[bool]
    members: list[list[Piece]]
    left_out: bool

    def most_certain(self, number: int) -> list[int]:
        """The smallest variances that a stack of up to this many pieces can be made of."""
        found: list[int] = []
        for variance, count in sorted(zip(self.variances, self.counts, strict=True)):
            found += [variance] * min(count, number)
        return found[:number]

    def most_together(self, most_leaves: int) -> int:
        """How many pieces the rules let stand in one stack: one round piece, so many leaves, every other."""
        leaves = sum(count for count, leaf in zip(self.counts, self.leaves, strict=True) if leaf)
        rounds = sum(count for count, is_round in zip(self.counts, self.rounds, strict=True) if is_round)
        return sum(self.counts) - leaves - rounds + min(leaves, most_leaves) + min(rounds, 1)

    def highest(self, most_pieces: int, most_leaves: int) -> int:
        """The highest stack the rules allow [nm].

        Taking the biggest first and skipping what breaks a rule is right here: the rules are limits on
        classes that do not overlap, and a limit on the whole.
        """
        height = leaves = rounds = number = 0
        for index in reversed(range(len(self.sizes))):
            for _ in range(min(self.counts[index], most_pieces - number)):
                if (self.rounds[index] and rounds) or (self.leaves[index] and leaves == most_leaves):
                    break
                number += 1
                rounds += self.rounds[index]
                leaves += self.leaves[index]
                height += self.sizes[index]
        return height

    def pieces(self, indices: tuple[int, ...]) -> list[Piece]:
        """One piece for each index, a group giving its pieces in drawer order."""
        used: dict[int, int] = {}
        given: list[Piece] = []
        for index in indices:
            taken = used.get(index, 0)
            used[index] = taken + 1
            for piece in self.members[index]:
                if taken < piece.count:
                    given.append(piece)
                    break
                taken -= piece.count
        return given


def group(pieces: tuple[Piece, ...] | list[Piece], most_leaves: int, target_nm: int) -> Groups:
    """Gather the pieces that can be used at all; of too many groups, those nearest in size to the
    target [nm]."""
    gathered: dict[tuple[int, int, int], list[Piece]] = {}
    for piece in pieces:
        if piece.size_nm >= 1 and piece.count >= 1 and (piece.shape != LEAF or most_leaves):
            key = (piece.size_nm, SHAPES.index(piece.shape), thousandths(piece.standard_nm))
            gathered.setdefault(key, []).append(piece)
    keys = sorted(gathered)
    left_out = len(keys) > MOST_GROUPS
    if left_out:
        keys = sorted(sorted(keys, key=lambda key: abs(key[0] - target_nm))[:MOST_GROUPS])
    members = [sorted(gathered[key], key=lambda piece: piece.place) for key in keys]
    return Groups(
        [key[0] for key in keys],
        [key[2] for key in keys],
        [sum(piece.count for piece in each) for each in members],
        [SHAPES[key[1]] == ROUND for key in keys],
        [SHAPES[key[1]] == LEAF for key in keys],
        members,
        left_out,
    )


def thousandths(standard_nm: float) -> int:
    """A standard uncertainty [nm] as a variance in whole thousandths of a square nanometre."""
    return round(standard_nm * standard_nm * 1000)
