"""Stacks of five pieces, found by sieving before joining.

Five pieces in order of size are a lower pair, a middle piece and an upper pair. For each middle piece the
sums of the pairs below it and of the pairs above it are marked as bits in two long whole numbers, one of
them mirrored, so that one shift and one "and" leaves a bit wherever a lower and an upper pair may add up
to what the middle piece needs. Only those places are then joined exactly. Each stack of five has one
middle piece and is therefore met once.
"""

from __future__ import annotations

from bisect import bisect_left
from typing import Protocol

from calc.drawer.pairs import HALF, MASK, SHIFT, meets

# Long whole numbers of this many bits fit a processor's nearest cache, and are fine enough to sieve well.
PLACES = 1 << 16
PLACES_A_PAIR = 16
"""A small drawer's few pairs need no more places than this each: long numbers take time of their own."""
# What reading and marking the places about one middle piece costs, in sums looked at.
STEPS_A_MIDDLE = 200


class Joining(Protocol):
    """What joins and counts: the search that sieves."""

    target: int
    sizes: list[int]
    rounds: list[bool]

    def within(self, strictly: bool) -> int:
        """Half the window [nm]."""

    def spend(self, steps: int) -> None:
        """Count work."""

    def join_below(self, uppers: tuple[int, ...], height: int, lowers: list[int], strictly: bool) -> None:
        """Offer these upper pieces with the pairs below them that bring the sum into the window."""


def five_piece_joins(
    search: Joining, usable: list[int], flat: list[int], mixed: list[int], strictly: bool
) -> None:
    """Offer every stack of five of the usable groups whose sum is inside the window.

    flat, mixed: packed sums of pairs without and with a round piece, sorted.
    """
    sizes, rounds = search.sizes, search.rounds
    reach = search.target + search.within(strictly)
    search.spend(len(flat) + len(mixed))
    width = max(1, reach // min(PLACES, PLACES_A_PAIR * (len(flat) + len(mixed)) + 1))
    middles = [index for index in usable if 3 * sizes[index] <= reach]
    if not middles:
        return
    flat = flat[: bisect_left(flat, (reach + 1) << SHIFT)]
    mixed = mixed[: bisect_left(mixed, (reach + 1) << SHIFT)]
    top = reach // width + 1
    last = middles[-1]
    most = max([last, *[(pair >> HALF) & MASK for pairs in (flat, mixed) for pair in pairs]])
    lower_flat, flat_above = _by_index(flat, width, most)
    lower_mixed, mixed_above = _by_index(mixed, width, most)
    upper_masks = _upper_masks(flat_above, mixed_above, middles, top)
    low_flat = bytearray(top // 8 + 1)
    low_any = bytearray(top // 8 + 1)
    for index in range(last + 1):
        # Lower pairs are those whose bigger piece is not above the middle one; marked from the top down.
        for place in lower_flat[index]:
            mirrored = top - place
            low_flat[mirrored >> 3] |= 1 << (mirrored & 7)
            low_any[mirrored >> 3] |= 1 << (mirrored & 7)
        for place in lower_mixed[index]:
            mirrored = top - place
            low_any[mirrored >> 3] |= 1 << (mirrored & 7)
        if index not in upper_masks:
            continue
        search.spend(STEPS_A_MIDDLE)
        upper_flat, upper_mixed = upper_masks[index]
        below_flat = int.from_bytes(low_flat, "little")
        if rounds[index]:
            _join(search, index, below_flat, upper_flat, flat, (flat,), width, top, strictly)
        else:
            below_any = int.from_bytes(low_any, "little")
            _join(search, index, below_any, upper_flat, flat, (flat, mixed), width, top, strictly)
            _join(search, index, below_flat, upper_mixed, mixed, (flat,), width, top, strictly)


def _by_index(pairs: list[int], width: int, most: int) -> tuple[list[list[int]], list[list[int]]]:
    """The places of the pairs, listed by the index of their bigger piece, and by that of their smaller one.

    most: no smaller piece of a pair, and no middle piece, has a higher index.
    """
    by_bigger: list[list[int]] = [[] for _ in range(most + 1)]
    by_smaller: list[list[int]] = [[] for _ in range(most + 1)]
    for packed in pairs:
        place = (packed >> SHIFT) // width
        by_smaller[(packed >> HALF) & MASK].append(place)
        bigger = packed & MASK
        if bigger <= most:
            by_bigger[bigger].append(place)
    return by_bigger, by_smaller


def _upper_masks(
    upper_flat: list[list[int]], upper_mixed: list[list[int]], middles: list[int], top: int
) -> dict[int, tuple[int, int]]:
    """For each middle piece the marked places of the pairs not below it, without and with a round piece."""
    marked_flat = bytearray(top // 8 + 1)
    marked_mixed = bytearray(top // 8 + 1)
    wanted = set(middles)
    masks: dict[int, tuple[int, int]] = {}
    for index in reversed(range(len(upper_flat))):
        for place in upper_flat[index]:
            marked_flat[place >> 3] |= 1 << (place & 7)
        for place in upper_mixed[index]:
            marked_mixed[place >> 3] |= 1 << (place & 7)
        if index in wanted:
            masks[index] = (int.from_bytes(marked_flat, "little"), int.from_bytes(marked_mixed, "little"))
    return masks


def _join(
    search: Joining,
    middle: int,
    below: int,
    above: int,
    uppers: list[int],
    lowers: tuple[list[int], ...],
    width: int,
    top: int,
    strictly: bool,
) -> None:
    """Join upper pairs with lower pairs about one middle piece, where the sieve leaves a place."""
    if not above or not below:
        return
    height = search.sizes[middle]
    within = reach = search.within(strictly)
    sieve, passed = surviving_places(below, above, search.target - height, within, width, top), 0
    while sieve:
        place = sieve.bit_length() - 1
        sieve ^= 1 << place
        end = (place + 1) * width << SHIFT
        position = bisect_left(uppers, place * width << SHIFT)
        search.spend(1 + passed)
        passed = 0
        while position < len(uppers) and uppers[position] < end:
            packed = uppers[position]
            position += 1
            smaller = (packed >> HALF) & MASK
            if smaller >= middle:
                trio = height + (packed >> SHIFT)
                for lower in lowers:
                    if meets(lower, search.target - trio, reach):
                        search.join_below((middle, smaller, packed & MASK), trio, lower, strictly)
                        reach = search.within(strictly)
                    else:
                        passed += 1
        if reach < within // 2:
            # Better stacks have made the window much smaller: sieve what remains more finely.
            within = reach
            sieve &= surviving_places(below, above, search.target - height, within, width, top)


def surviving_places(below: int, above: int, around: int, within: int, width: int, top: int) -> int:
    """The places of upper pairs that may find a lower pair so that both together come within the window.

    With x // width + y // width = s for the places of sums x and y, x + y in [around - within, around +
    within] puts s between (around - within) // width - 1 and (around + within) // width, both included.
    """
    lowest = (around - within) // width - 1
    highest = (around + within) // width
    if highest < 0 or within < 0:
        return 0
    sieve = below >> (top - highest)
    places = min(highest - lowest + 1, top + 1)
    spread = 1
    while spread < places:
        step = min(spread, places - spread)
        sieve |= sieve >> step
        spread += step
    return sieve & above
