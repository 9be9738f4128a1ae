"""A policy that knows the simulated shop's model and weighs all evidence: what the best could do there.

Everything steady is a cloud of particles drawn as the shop itself is drawn; each observation weighs them by
its own likelihood in the shop's own terms, and what is new each time is drawn anew for every particle. So it
knows the spread of everything and the truth of nothing. It stops by the same rule as Conewright.
"""

from __future__ import annotations

import itertools
import math

import numpy as np

from calibration.lathe import Array, Truth, error_on_diameter
from shop.conewright import MOST_CUTS, Job
from shop.physics import AXIS, BAR, EXPANSION, EYE, FILM, GIVE, HABIT, SHARES, SIDE, SWEPT, WIPE, Shop, Taper

COUNT = 2500
SURE, WORTH = 0.95, 0.02
STEADY = ("bar", "roller", "edge", "side", "axis", "gauge")
NODES = np.array([-1.6, -0.8, 0.0, 0.8, 1.6])
NODE_WEIGHTS = np.exp(-0.5 * NODES**2) / np.exp(-0.5 * NODES**2).sum()


def stacks(shop: Shop) -> tuple[list[tuple[int, ...]], Array]:
    """Every stack of up to four pieces that may lie in one gap, with its height as measured."""
    kept: list[tuple[int, ...]] = []
    heights: list[float] = []
    shapes = [shape for _, shape, _, _ in shop.drawer]
    sizes = [size for _, _, size, _ in shop.drawer]
    for many in (1, 2, 3, 4):
        for places in itertools.combinations(range(len(sizes)), many):
            kinds = [shapes[place] for place in places]
            if kinds.count("round") <= 1 and kinds.count("leaf") <= 3:
                kept.append(places)
                heights.append(sum(sizes[place] for place in places))
    return kept, np.array(heights)


def nearest(shop: Shop, wanted: float) -> tuple[list[int], float]:
    """The stack nearest to a height, of fewest pieces where several are alike to half a micrometre; how far
    off.
    """
    kept, heights = stacks(shop)
    off = np.abs(heights - wanted)
    best = int(np.argmin(np.round(off / 0.0005) * 10 + [len(each) for each in kept]))
    return list(kept[best]), float(heights[best] - wanted)


class Knowing:
    """The cloud of one shop."""

    def __init__(self, shop: Shop, seed: int) -> None:
        self.shop, self.draw = shop, np.random.default_rng(seed)
        self.cloud = {name: self.draw.uniform(-GIVE[name], GIVE[name], COUNT) for name in STEADY}
        for place, (_, _, _, give) in enumerate(shop.drawer):
            self.cloud[f"piece {place}"] = self.draw.uniform(-give, give, COUNT)
        self.cloud["habit"] = np.exp(self.draw.normal(0.0, HABIT, COUNT))
        self.kept, self.heights = stacks(shop)

    def _new(self, name: str) -> Array:
        return self.draw.uniform(-GIVE[name], GIVE[name], COUNT)

    def errors(self, places: list[int], taper: Taper) -> Array:
        """What a cut on this stack would come out by [mm on diameter], for every particle."""
        stack = np.zeros(COUNT)
        for place in places:
            stack += self.shop.drawer[place][2] + self.cloud[f"piece {place}"]
        for _ in range(len(places) + 1):
            stack += self._new("seat")
        twenty = np.full(COUNT, 20.0)
        truth = Truth(
            BAR + self.cloud["bar"],
            twenty + self.cloud["roller"],
            twenty,
            self.cloud["edge"],
            stack,
            self._new("sweep"),
            SWEPT,
            self.cloud["side"],
            SIDE,
            self.cloud["axis"],
            AXIS,
            self._new("height"),
            self._new("warm"),
        )
        return error_on_diameter(truth, taper.large, taper.small, taper.length, EXPANSION)

    def choose(self, taper: Taper) -> list[int]:
        """The stack that comes out nearest to nothing on the mean."""
        wanted = BAR * math.sin(taper.half)
        places, _ = nearest(self.shop, wanted)
        bias = float(self.errors(places, taper).mean())
        built = sum(self.shop.drawer[place][2] for place in places)
        return nearest(self.shop, built - bias * BAR / (2.0 * taper.length))[0]

    def weigh(self, rows: list[dict[str, str]], errors: Array, taper: Taper) -> Array:
        """Weights of the particles after these rows."""
        weights = np.ones(COUNT)
        for row in rows:
            if row["way"] == "contact":
                weights *= self._blue(row, errors, taper)
            elif row["way"] == "two_diameters":
                apart = float(row["apart"].split()[0])
                across = float(row["diameter_1"].split()[0]) - float(row["diameter_2"].split()[0])
                spread = math.hypot(0.003 * math.sqrt(2.0), 0.05 * taper.rate) / math.sqrt(3.0)
                away = across - apart * (taper.rate + errors / taper.length)
                weights *= np.exp(-0.5 * (away / spread) ** 2)
            else:
                length = float(row["run_length"].split()[0])
                half = taper.half + errors / taper.per_radian
                stack = BAR * math.sin(2.0 * taper.half)
                tilt = 2.0 * half - np.arcsin(stack / (BAR + self.cloud["bar"]))
                spread = math.hypot(0.002, 0.002 * length / BAR) / math.sqrt(3.0)
                away = float(row["run"].split()[0]) - length * tilt
                weights *= np.exp(-0.5 * (away / spread) ** 2)
        return weights + 1e-12

    def _blue(self, row: dict[str, str], errors: Array, taper: Taper) -> Array:
        """Chance of this word for each particle: the nearest of the shares to what is seen to ± EYE."""
        seen = (errors - self.cloud["gauge"]) / taper.per_radian
        gap = np.maximum(np.abs(seen) * taper.length / math.cos(taper.half), 1e-12)
        word = "all" if row["end"] == "all" else row["share"]
        values = sorted(SHARES.values())
        at = values.index(SHARES[word])
        low = -9.0 if at == 0 else 0.5 * (values[at - 1] + values[at])
        high = 9.0 if at == len(values) - 1 else 0.5 * (values[at] + values[at + 1])
        chance = np.zeros(COUNT)
        for node, weight in zip(NODES, NODE_WEIGHTS, strict=True):
            share = np.minimum(1.0, FILM * self.cloud["habit"] * math.exp(node * WIPE) / gap)
            inside = np.minimum(high, share + EYE) - np.maximum(low, share - EYE)
            chance += weight * np.clip(inside / (2.0 * EYE), 0.0, 1.0)
        if word == "all":
            return chance
        return chance * ((seen > 0.0) == (row["end"] == "large"))

    def learn(self, weights: Array) -> Array:
        """Draw the cloud anew by its weights, spread a little so that it does not run dry; who was drawn."""
        drawn = self.draw.choice(COUNT, COUNT, p=weights / weights.sum())
        shrink = 0.98
        for name, values in self.cloud.items():
            mean, spread = float(values[drawn].mean()), float(values[drawn].std())
            moved = shrink * values[drawn] + (1.0 - shrink) * mean
            self.cloud[name] = moved + self.draw.normal(0.0, spread * math.sqrt(1.0 - shrink**2), COUNT)
        return np.asarray(drawn)

    def make(self, taper: Taper) -> Job:
        """One job, as Conewright's."""
        shop, job = self.shop, Job()
        places = self.choose(taper)
        built = sum(shop.drawer[place][2] for place in places)
        slide, errors = shop.set_up(places, taper), self.errors(places, taper)
        job.supported = True
        job.left = built  # not followed here
        for _ in range(MOST_CUTS):
            error = slide.cut()
            job.errors.append(error)
            weights = self.weigh([shop.blue(error, taper), *shop.measured(error, taper)], errors, taper)
            errors = errors[self.learn(weights)]
            now = float((np.abs(errors) <= taper.limit).mean())
            job.stated.append((now, abs(error) <= taper.limit))
            if now >= SURE:
                break
            turn = -float(errors.mean()) / taper.per_radian
            off = (
                self.draw.uniform(-0.002, 0.002, COUNT) / 100.0
                + self.draw.uniform(-0.002, 0.002, COUNT) / 80.0
            )
            tapped = errors + (turn + off) * taper.per_radian
            other = self.choose(taper)
            anew = self.errors(other, taper)
            chances = [float((np.abs(each) <= taper.limit).mean()) for each in (tapped, anew)]
            if max(chances) <= now + WORTH:
                break
            if chances[0] >= chances[1]:
                slide.tap(turn, 100.0)
                errors = tapped
            else:
                slide, errors = shop.set_up(other, taper), anew
        return job
