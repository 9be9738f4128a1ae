"""Sums of two pieces, sorted: what every larger stack is joined from.

Pairs are packed in one whole number, sum · 2^20 + lower index · 2^10 + upper index, which sorts by sum and
compares much faster than a tuple.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right

from calc.drawer.groups import Groups

SHIFT = 20
HALF = 10
MASK = (1 << HALF) - 1


def meets(pairs: list[int], around: int, within: int) -> bool:
    """Whether any of the packed sums comes within the window [nm]: mostly none does, which shows soon."""
    place = bisect_left(pairs, (around - within) << SHIFT)
    return place < len(pairs) and pairs[place] >> SHIFT <= around + within


def pair_sums(groups: Groups, usable: list[int], room: int) -> tuple[list[int], list[int]]:
    """Packed sums up to `room` [nm] of the usable groups: of two that are not round, and of one round and one
    not."""
    sizes, rounds = groups.sizes, groups.rounds
    flats = [index for index in usable if not rounds[index]]
    drills = [index for index in usable if rounds[index]]
    flat: list[int] = []
    for position, upper in enumerate(flats):
        most = bisect_right(flats, room - sizes[upper], 0, position, key=sizes.__getitem__)
        step = (sizes[upper] << SHIFT) | upper
        flat += [(sizes[lower] << SHIFT) + (lower << HALF) + step for lower in flats[:most]]
        if groups.counts[upper] > 1 and 2 * sizes[upper] <= room:
            flat.append((sizes[upper] << SHIFT) + (upper << HALF) + step)
    mixed: list[int] = []
    for drill in drills:
        most = bisect_right(flats, room - sizes[drill], key=sizes.__getitem__)
        below = bisect_left(flats, drill, 0, most)
        step = (sizes[drill] << SHIFT) | drill
        mixed += [(sizes[lower] << SHIFT) + (lower << HALF) + step for lower in flats[:below]]
        step = (sizes[drill] << SHIFT) | (drill << HALF)
        mixed += [(sizes[upper] << SHIFT) + upper + step for upper in flats[below:most]]
    flat.sort()
    mixed.sort()
    return flat, mixed
