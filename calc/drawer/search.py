"""The sweeps that prove which stacks are the best, in the order that `find` states.

Stacks of one piece are all looked at, then of two, and so on. The `keep` best so far give a worst key. A
stack of n pieces can only enter with an error step below the worst one's, or with the same step and a
variance not above the worst one's. So for each n two sweeps are enough: one over all stacks with a smaller
step, one over the stacks of that very step made of pieces whose doubt leaves room for the n - 1 most
certain others. Both sweeps list *every* sum inside a window about the target, by joining sorted sums of
pairs, so nothing that could enter is passed over. Later stacks only lower the worst key, which keeps
earlier sweeps valid. Equal pieces (same shape, size and doubt) are one group with a count, so no stack
comes twice under two labels.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort

from calc.drawer.groups import group, thousandths
from calc.drawer.pairs import HALF, MASK, SHIFT, meets, pair_sums
from calc.drawer.pieces import Piece
from calc.drawer.sieve import five_piece_joins
from calc.drawer.stacks import MOST_PIECES, Limits

# Beginnings tried before a sweep.
STARTS = 10
# A pair made and sorted takes about as long as this part of a sum looked at.
PAIRS_A_STEP = 3

Key = tuple[int, int, int, int, tuple[int, ...]]


class _EnoughWork(Exception):
    """The work limit is reached."""


class Search:
    """The state of one search: groups of equal pieces by size, and the best stacks so far."""

    def __init__(
        self, pieces: tuple[Piece, ...] | list[Piece], target_nm: int, limits: Limits, keep: int
    ) -> None:
        self.target = target_nm
        self.keep = keep
        self.told = max(1, int(limits.told_apart_nm))
        self.most_pieces = min(MOST_PIECES, max(1, limits.most_pieces))
        self.most_leaves = max(0, limits.most_leaves)
        self.seat = thousandths(limits.seating_nm)
        self.work_limit = limits.work_limit
        self.steps = 0
        self.groups = group(pieces, self.most_leaves, target_nm)
        self.depth = min(self.most_pieces, self.groups.most_together(self.most_leaves))
        self.sizes, self.variances = self.groups.sizes, self.groups.variances
        self.rounds, self.leaves, self.counts = self.groups.rounds, self.groups.leaves, self.groups.counts
        self.best: list[Key] = []
        self.inside: set[tuple[int, ...]] = set()
        self.base: tuple[list[int], list[int]] | None = None
        # The smallest variance that stacks of the number of pieces being looked at can have, and that number.
        self.least = (0, 0)
        self.most_certain = self.groups.most_certain(self.depth)

    # -- the order -------------------------------------------------------------------------------------------

    def offer(self, indices: tuple[int, ...], height: int, variance: int) -> bool:
        """Take a stack in if the rules allow it and it belongs among the best, and tell whether it was taken.
        `indices` ascend; `variance` is that of the pieces alone."""
        error = height - self.target
        off = error if error >= 0 else -error
        number = len(indices)
        key = (off // self.told, variance + (number + 1) * self.seat, number, off, indices)
        full = len(self.best) >= self.keep
        if (full and key > self.best[-1]) or indices in self.inside:
            return False
        leaves = rounds = run = 0
        previous = -1
        for index in indices:
            run = run + 1 if index == previous else 1
            previous = index
            leaves += self.leaves[index]
            rounds += self.rounds[index]
            if run > self.counts[index]:
                return False
        if rounds > 1 or leaves > self.most_leaves:
            return False
        if full:
            self.inside.discard(self.best.pop()[4])
        insort(self.best, key)
        self.inside.add(indices)
        return True

    def within(self, strictly: bool) -> int:
        """Half the window [nm]: the largest error that could still enter, with a smaller step than the
        worst of the best (strictly) or with the same step as well; -1 where none could."""
        if len(self.best) < self.keep:
            return self.target + self.depth * self.sizes[-1]
        step, variance, number, off, _ = self.best[-1]
        if strictly:
            return step * self.told - 1
        if (variance, number) <= self.least:
            # No stack of this many pieces is more certain than the worst of the best, so only a nearer
            # one enters.
            return off if (variance, number) == self.least else step * self.told - 1
        return (step + 1) * self.told - 1

    # -- the sweeps ------------------------------------------------------------------------------------------

    def run(self) -> bool:
        """Search every number of pieces; True where the proof is whole."""
        try:
            for number in range(1, self.depth + 1):
                self.look_at(number)
        except _EnoughWork:
            return False
        return True

    def look_at(self, number: int) -> None:
        """All stacks of this many pieces that could enter."""
        everything = list(range(len(self.sizes)))
        self.least = (sum(self.most_certain[:number]) + (number + 1) * self.seat, number)
        if number == 1:
            for index in everything:
                self.offer((index,), self.sizes[index], self.variances[index])
            return
        if len(self.best) < self.keep:
            self.sweep(number, everything, False)
            return
        if self.best[-1][0] > 0:
            self.make_a_start(number)
            if self.best[-1][0] > 0:
                self.sweep(number, everything, True)
        # Same step as the worst: the variance must not be above the worst one's, and must be below it if that
        # one has fewer pieces. What is left of it after the seats and the n - 1 most certain pieces
        # is what any one piece may spend.
        _, worst_variance, worst_number, _, _ = self.best[-1]
        left = worst_variance - (number + 1) * self.seat - (1 if number > worst_number else 0)
        if len(self.most_certain) < number or sum(self.most_certain[:number]) > left:
            return
        spare = left - sum(self.most_certain[: number - 1])
        self.sweep(number, [index for index in everything if self.variances[index] <= spare], False)

    def make_a_start(self, number: int) -> None:
        """Offer some likely stacks of this many pieces, so that the sweep begins with a small window.

        This proves nothing. The best smaller stacks with one piece more serve where the target is out of
        reach; a spread of beginnings with the nearest pair to finish them serves where it is within.
        """
        sizes, variances = self.sizes, self.variances
        for _, _, _, _, indices in [key for key in self.best if key[2] == number - 1]:
            height = sum([sizes[index] for index in indices])
            bare = sum([variances[index] for index in indices])
            # One piece more can only bring it among the best if it comes within the worst one's step.
            short, wide = self.target - height, (self.best[-1][0] + 1) * self.told
            for index in range(bisect_right(sizes, short - wide), bisect_left(sizes, short + wide)):
                size = sizes[index]
                self.offer(tuple(sorted((*indices, index))), height + size, bare + variances[index])
        if number < 3:
            return
        flat, _ = self.pairs([], True)
        for beginning in range(STARTS if flat else 0):
            indices = (beginning * len(sizes) // STARTS,)
            if number > 3:
                packed = flat[(2 * beginning + 1) * len(flat) // (2 * STARTS)]
                indices = (*indices, (packed >> HALF) & MASK, packed & MASK)[5 - number :]
            height = sum([sizes[index] for index in indices])
            near = bisect_left(flat, (self.target - height) << SHIFT)
            for packed in flat[max(0, near - 2) : near + 2]:
                stack = tuple(sorted((*indices, (packed >> HALF) & MASK, packed & MASK)))
                self.offer(stack, height + (packed >> SHIFT), sum([variances[index] for index in stack]))

    def sweep(self, number: int, candidates: list[int], strictly: bool) -> None:
        """Offer every stack of this many of these groups whose sum is inside the window."""
        reach = self.target + self.within(strictly)
        sizes = self.sizes
        last = bisect_right(sizes, reach)
        usable = [index for index in candidates if index < last]
        if not usable:
            return
        if number == 2:
            self.sweep_pairs(usable, strictly)
            return
        flat, mixed = self.pairs(usable, len(candidates) == len(sizes))
        if number == 3:
            self.sweep_triples(usable, flat, mixed, strictly)
        elif number == 4:
            self.sweep_fours(flat, mixed, strictly)
        else:
            five_piece_joins(self, usable, flat, mixed, strictly)

    def pairs(self, usable: list[int], whole: bool) -> tuple[list[int], list[int]]:
        """Packed sums of two, sorted: of two that are not round, and of one round and one not.

        Every larger stack holds such a pair with at least one more piece, so pairs that leave no room are
        left out. For the whole drawer the lists are made once, for the wider window: it only shrinks, so
        they stay sufficient.
        """
        if whole and self.base is not None:
            return self.base
        if whole:
            usable = list(range(bisect_right(self.sizes, self.target + self.within(False))))
        if not usable:
            return [], []
        room = self.target + self.within(False) - self.sizes[usable[0]]
        flat, mixed = pair_sums(self.groups, usable, room)
        self.spend((len(flat) + len(mixed)) // PAIRS_A_STEP)
        if whole:
            self.base = (flat, mixed)
        return flat, mixed

    def spend(self, steps: int) -> None:
        """Count work, and stop at the limit."""
        self.steps += steps
        if self.steps > self.work_limit:
            raise _EnoughWork

    def sweep_pairs(self, usable: list[int], strictly: bool) -> None:
        """Two pieces: for each upper one, the lower ones that bring the sum into the window."""
        sizes, variances = self.sizes, self.variances
        for upper in usable:
            around = self.target - sizes[upper]
            within = self.within(strictly)
            start = bisect_left(usable, around - within, key=sizes.__getitem__)
            end = bisect_right(usable, around + within, start, key=sizes.__getitem__)
            self.spend(1 + end - start)
            for lower in usable[start:end]:
                if lower > upper:
                    break
                self.offer((lower, upper), sizes[lower] + sizes[upper], variances[lower] + variances[upper])

    def sweep_triples(self, usable: list[int], flat: list[int], mixed: list[int], strictly: bool) -> None:
        """Three pieces: the biggest one and a pair of pieces not above it."""
        for upper in usable:
            self.join_below((upper,), self.sizes[upper], flat, strictly)
            if not self.rounds[upper]:
                self.join_below((upper,), self.sizes[upper], mixed, strictly)

    def sweep_fours(self, flat: list[int], mixed: list[int], strictly: bool) -> None:
        """Four pieces: the two biggest and the two smallest, at most one pair with a round piece in it."""
        least = (self.target - self.within(strictly) + 1) // 2
        for uppers, lowers in ((flat, flat), (flat, mixed), (mixed, flat)):
            if not lowers:
                continue
            within, target, passed = self.within(strictly), self.target, 0
            # The two biggest make up at least half of the sum.
            for packed in reversed(uppers[bisect_left(uppers, least << SHIFT) :]):
                if not meets(lowers, target - (packed >> SHIFT), within):
                    passed += 1
                    continue
                pair = ((packed >> HALF) & MASK, packed & MASK)
                self.join_below(pair, packed >> SHIFT, lowers, strictly)
                within = self.within(strictly)
            self.spend(passed)

    def join_below(self, uppers: tuple[int, ...], height: int, lowers: list[int], strictly: bool) -> None:
        """Offer these upper pieces with every pair of pieces not above them that brings the sum into the
        window.

        The nearest sums are offered first, on either side: where the window is still wide, they shrink it.
        """
        within = self.within(strictly)
        around = self.target - height
        start = bisect_left(lowers, (around - within) << SHIFT)
        end = bisect_left(lowers, (around + within + 1) << SHIFT, start)
        if start == end:
            self.spend(1)
            return
        centre = bisect_left(lowers, around << SHIFT, start, end)
        top = uppers[0]
        variances = self.variances
        bare = sum([variances[index] for index in uppers])
        visited = 1
        for places in (range(centre, end), range(centre - 1, start - 1, -1)):
            for place in places:
                packed = lowers[place]
                total = packed >> SHIFT
                if abs(total - around) > within:
                    break
                visited += 1
                second = packed & MASK
                if second <= top:
                    first = (packed >> HALF) & MASK
                    pair = variances[first] + variances[second]
                    if self.offer((first, second, *uppers), height + total, bare + pair):
                        within = self.within(strictly)
        self.spend(visited)
