"""The best stacks the long way: every allowed combination, sorted. Shares nothing with the search."""

from __future__ import annotations

import itertools
from fractions import Fraction

from calc.drawer import Limits, Piece

BruteKey = tuple[int, Fraction, int, int]


def every_stack(pieces: list[Piece], limits: Limits) -> list[tuple[Piece, ...]]:
    """Every stack the rules allow; pieces equal in shape, size and doubt count as the same piece."""
    single: list[Piece] = []
    for piece in pieces:
        single += [piece] * piece.count
    stacks: dict[tuple[tuple[int, str, float], ...], tuple[Piece, ...]] = {}
    for number in range(1, limits.most_pieces + 1):
        for chosen in itertools.combinations(single, number):
            if sum(piece.shape == "round" for piece in chosen) > 1:
                continue
            if sum(piece.shape == "leaf" for piece in chosen) > limits.most_leaves:
                continue
            same = tuple(sorted((piece.size_nm, piece.shape, piece.standard_nm) for piece in chosen))
            stacks.setdefault(same, chosen)
    return list(stacks.values())


def brute_key(chosen: tuple[Piece, ...], target_nm: int, limits: Limits) -> BruteKey:
    """Error step, variance, number of pieces, error: the order as the drawer states it."""
    off = abs(sum(piece.size_nm for piece in chosen) - target_nm)

    def thousandths(standard_nm: float) -> int:
        return round(standard_nm * standard_nm * 1000)

    variance = sum(thousandths(piece.standard_nm) for piece in chosen)
    variance += (len(chosen) + 1) * thousandths(limits.seating_nm)
    return (off // limits.told_apart_nm, Fraction(variance, 1000), len(chosen), off)


def best_keys(pieces: list[Piece], target_nm: int, limits: Limits, keep: int = 8) -> list[BruteKey]:
    """The keys of the best, in order."""
    return sorted(brute_key(chosen, target_nm, limits) for chosen in every_stack(pieces, limits))[:keep]
