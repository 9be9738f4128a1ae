"""A simulated shop: its bar, slide and drawer at their true sizes, its hands and its eye. Nothing comes from
the core.

The lathe cuts by the plain vectors of tests/calibration/lathe.py. What is steady is drawn once for a shop;
what is new at each set-up, each cut and each reading is drawn anew. Lengths [mm], angles [rad].
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from calibration.lathe import Array, Truth, cut, slide_travel, turned

BAR, SWEPT, SIDE, AXIS = 100.0, 80.0, 80.0, 100.0
GIVE = {
    "bar": 0.003,
    "roller": 0.002,
    "edge": 0.001,
    "side": 0.005,
    "axis": 0.005,
    "sweep": 0.002,
    "seat": 0.001,
    "height": 0.1,
    "warm": 3.0,
    "gauge": 0.001,
}
"""Half-widths, as a shop states them: the core's defaults, which stand in its help."""
EXPANSION = 11.5e-6
FILM, HABIT, WIPE = 0.003, 0.30, 0.20
"""A thin film [mm], and how one hand's films spread about it (as a logarithm), always and each time."""
EYE = 0.10
"""A share is seen to ± this, anywhere alike."""
SHARES = {"quarter": 0.25, "40 %": 0.40, "half": 0.50, "three quarters": 0.75, "all": 1.0}


@dataclass(frozen=True)
class Taper:
    """A shank to be made: sizes [mm], and how far out on diameter it may be either way [mm]."""

    large: float
    rate: float
    length: float
    limit: float

    @property
    def small(self) -> float:
        return self.large - self.rate * self.length

    @property
    def half(self) -> float:
        return math.atan(self.rate / 2.0)

    @property
    def per_radian(self) -> float:
        """On diameter over the length [mm], for a radian of half angle."""
        return 2.0 * self.length / math.cos(self.half) ** 2


@dataclass
class Shop:
    """One shop: what is steady in it. `kit`: what it can measure with besides blue ("", "micrometer",
    "plate").
    """

    chance: np.random.Generator
    kit: str
    drawer: list[tuple[str, str, float, float]] = field(default_factory=list)
    steady: dict[str, float] = field(default_factory=dict)
    pieces: list[float] = field(default_factory=list)
    habit: float = 1.0

    @staticmethod
    def drawn(seed: int, kit: str) -> Shop:
        """A shop with some thirty measured pieces."""
        shop = Shop(np.random.default_rng(seed), kit)
        chance = shop.chance
        for size in (0.6, 0.8, 1.0, 1.2, 1.5, 1.6, 1.8, 2.0, 2.1, 2.2, 2.3, 2.4, 2.5, 3.0, 3.3, 4.2):
            shop.drawer.append(
                (f"{size} drill", "round", round(size - chance.uniform(0.002, 0.012), 3), 0.0025)
            )
        for size in (0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5):
            shop.drawer.append(
                (f"leaf {size}", "leaf", round(size + chance.uniform(-0.002, 0.002), 3), 0.0025)
            )
        for size in (1.0, 1.5, 2.0, 2.5, 5.0):
            shop.drawer.append(
                (f"{size} block", "flat", round(size + chance.uniform(-0.0003, 0.0003), 4), 0.001)
            )
        shop.pieces = [measured + chance.uniform(-give, give) for _, _, measured, give in shop.drawer]
        for name in ("bar", "roller", "edge", "side", "axis", "gauge"):
            shop.steady[name] = float(chance.uniform(-GIVE[name], GIVE[name]))
        shop.habit = float(math.exp(chance.normal(0.0, HABIT)))
        return shop

    def _new(self, name: str) -> float:
        return float(self.chance.uniform(-GIVE[name], GIVE[name]))

    def set_up(self, places: list[int], taper: Taper) -> SlideAtWork:
        """The slide as it stands once the bar on this stack reads alike at both ends."""
        stack = sum(self.pieces[place] for place in places)
        stack += sum(self._new("seat") for _ in range(len(places) + 1))
        one = np.ones(1)
        truth = Truth(
            one * (BAR + self.steady["bar"]),
            one * (20.0 + self.steady["roller"]),
            one * 20.0,
            one * self.steady["edge"],
            one * stack,
            one * self._new("sweep"),
            SWEPT,
            one * self.steady["side"],
            SIDE,
            one * self.steady["axis"],
            AXIS,
            one * 0.0,
            one * 0.0,
        )
        return SlideAtWork(self, taper, slide_travel(truth), self._new("height"))

    # -- what is seen ----------------------------------------------------------------------------------------

    def blue(self, error: float, taper: Taper) -> dict[str, str]:
        """Blue the shank in its ring: error on diameter over the length [mm], the ring's own in it."""
        seen = (error - self.steady["gauge"]) / taper.per_radian
        film = FILM * self.habit * math.exp(self.chance.normal(0.0, WIPE))
        slant = taper.length / math.cos(taper.half)
        share = min(1.0, film / max(abs(seen) * slant, 1e-12)) + self.chance.uniform(-EYE, EYE)
        word = min(SHARES, key=lambda name: abs(SHARES[name] - share))
        if word == "all":
            return {"way": "contact", "end": "all"}
        return {"way": "contact", "end": "large" if seen > 0.0 else "small", "share": word}

    def measured(self, error: float, taper: Taper) -> list[dict[str, str]]:
        """What the kit says besides blue."""
        apart = round(0.8 * taper.length, 0)
        rate = taper.rate + error / taper.length
        if self.kit == "micrometer":
            true = apart + self.chance.uniform(-0.05, 0.05)
            across = rate * true + self.chance.uniform(-0.003, 0.003) + self.chance.uniform(-0.003, 0.003)
            first = 0.9 * taper.large
            return [
                {
                    "way": "two_diameters",
                    "diameter_1": f"{first:.4f} mm",
                    "diameter_2": f"{first - across:.4f} mm",
                    "apart": f"{apart:.0f} mm",
                    "at": "stops",
                }
            ]
        if self.kit == "plate":
            half = math.atan(rate / 2.0)
            # On the very bar that set the slide: what its centres are out by is not seen. Its stack is good
            # to 2 µm.
            true_bar = BAR + self.steady["bar"]
            stack = BAR * math.sin(2.0 * taper.half) + self.chance.uniform(-0.002, 0.002)
            tilt = 2.0 * half - math.asin(stack / true_bar)
            run = apart * math.tan(tilt) + self.chance.uniform(-0.002, 0.002)
            return [
                {
                    "way": "indicator_run",
                    "setup": "plate",
                    "run": f"{run:.5f} mm",
                    "run_length": f"{apart:.0f} mm",
                    "bar": "same",
                }
            ]
        return []


@dataclass
class SlideAtWork:
    """The slide set for a job: where it runs, and how high the tool stands."""

    shop: Shop
    taper: Taper
    travel: Array
    height: float

    def cut(self) -> float:
        """Error on diameter over the length of a cut made now [mm], above 0 too steep."""
        one = np.ones(1)
        taper, shop = self.taper, self.shop
        slope = one * (0.5 * shop.steady["axis"] / AXIS)
        growth = one * (EXPANSION * shop._new("warm"))
        size = (taper.large, taper.small, taper.length)
        return float(cut(self.travel, slope, one * self.height, growth, size)[0])

    def tap(self, turn: float, at: float) -> None:
        """Tap the slide to turn the half angle by `turn` [rad], an indicator `at` [mm] from the pivot."""
        off = self.shop.chance.uniform(-0.002, 0.002) / at + self.shop.chance.uniform(-0.002, 0.002) / 80.0
        self.travel = turned(self.travel, np.ones(1) * (turn + off))
