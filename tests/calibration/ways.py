"""Every way of setting carried out on the lathe in vectors: what is true is drawn within what the job says.

Nothing here comes from the core but the readings a person would set. Each way says what it asks of the job
(entries) and what taper comes of a reading when indicator, bar, centres and clamping are what they really
are. Lengths [mm], angles [rad]; each array holds one value for every setting simulated.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from calibration.lathe import Array, cut, travel_by_dial, turned

EXPANSION = 11.5e-6
MASTER, SIDE, AXIS = 50.0, 80.0, 100.0
"""Lengths [mm] over which a bar's or master's error, the slide's and the axis's are given."""

USUAL: Mapping[str, float] = {
    "bar_give": 0.003,
    "roller_give": 0.002,
    "edge_give": 0.001,
    "seating": 0.001,
    "sweep_give": 0.002,
    "side_give": 0.005,
    "axis_give": 0.005,
    "tool_height": 0.1,
    "dial_give": 0.003,
    "play_give": 0.002,
    "travel_give": 0.02,
    "master_give": 0.002,
    "lengths_give": 0.2,
    "true_give": 0.002,
    "dial_height_give": 0.2,
    "centre_give": 1.0,
    "collar_give": 0.003,
    "collar_left": 0.005,
}
"""Half-widths [mm] of the size that a shop knows things to."""
ANGLES: Mapping[str, float] = {"plunger_give": math.radians(1.0), "graduation_give": math.radians(0.1)}
WIDEST: Mapping[str, float] = {
    "plunger_give": math.radians(10.0),
    "graduation_give": math.radians(1.0),
    "centre_give": 4.0,
    "seating": 1.0,
}
"""Half-widths past which the thing itself would be out of order [mm or rad]."""


@dataclass
class Job:
    """One invented taper and to what everything is known; `known` holds half-widths [mm or rad]."""

    large: float
    small: float
    length: float
    known: dict[str, float]
    warm: float
    chance: random.Random
    draw: np.random.Generator
    count: int

    @property
    def half_angle(self) -> float:
        return math.atan(0.5 * (self.large - self.small) / self.length)

    def within(self, name: str) -> Array:
        """What is really so, less what it is taken for."""
        return np.asarray(self.draw.uniform(-1.0, 1.0, self.count) * self.known[name])

    def entries(self) -> dict[str, str]:
        """The taper and what each thing is known to."""
        return {
            "taper.series": "own",
            "taper.large_diameter": f"{self.large!r} mm",
            "taper.small_diameter": f"{self.small!r} mm",
            "taper.length": f"{self.length!r} mm",
            "setting.temperature": f"{self.warm:.0f}",
            "setting.master_length": f"{MASTER} mm",
            "setting.side_length": f"{SIDE} mm",
            "setting.axis_length": f"{AXIS} mm",
            **{f"setting.{name}": f"{self.known[name]:.7f} mm" for name in USUAL},
            **{f"setting.{name}": f"{math.degrees(self.known[name]):.7f} deg" for name in ANGLES},
        }

    def turned_part(self, travel: Array, axis_slope: Array) -> Array:
        """What the part is out by [mm on diameter], tool height and warmth drawn."""
        growth = EXPANSION * np.asarray(self.draw.uniform(-1.0, 1.0, self.count) * self.warm)
        size = (self.large, self.small, self.length)
        return cut(travel, axis_slope, self.within("tool_height"), growth, size)

    def square(self) -> Array:
        return np.zeros(self.count)

    def clamped(self, travel: Array) -> Array:
        """The slide after tightening."""
        return turned(travel, self.within("play_give") / SIDE)

    def bar_slope(self) -> Array:
        """How far a test bar's side leaves the axis: its own taper is given on diameter."""
        return 0.5 * self.within("master_give") / MASTER + self.within("true_give") / MASTER


Number = Callable[[str], float]
"""The value of a figure of this id."""


@dataclass(frozen=True)
class Carried:
    """A way carried out: what it asks beside the job's own entries, and the errors [mm on diameter]."""

    entries: Callable[[Job], dict[str, str]]
    errors: Callable[[Job, dict[str, str], Number], Array]


def _along(angle: Array) -> Array:
    return np.stack([np.cos(angle), np.sin(angle)], axis=1)


def _two_dials(along: str) -> Carried:
    def errors(job: Job, entries: dict[str, str], number: Number) -> Array:
        # Each indicator is out by itself, and its plunger, askew, goes 1 / cosine as far as what it follows.
        across = number("setting.cross_whole") + job.within("dial_give")
        across = across * np.cos(job.within("plunger_give"))
        far = number("setting.travel_whole") + job.within("dial_give")
        far = far * np.cos(job.within("plunger_give"))
        if along == "carriage":
            side = np.arctan2(across, far)
            travel = _along(side + job.within("side_give") / SIDE)
            return job.turned_part(job.clamped(travel), 0.5 * job.within("axis_give") / AXIS)
        angle = np.arcsin(across / far) if along == "slide" else np.arctan2(across, far)
        return job.turned_part(job.clamped(_along(angle + job.bar_slope())), job.square())

    def entries(job: Job) -> dict[str, str]:
        return {"setting.way": "two_dials", "setting.travel_along": along, "setting.travel": "60 mm"}

    return Carried(entries, errors)


def _one_dial(square_to: str) -> Carried:
    def errors(job: Job, entries: dict[str, str], number: Number) -> Array:
        reading = number("setting.dial_whole") + job.within("dial_give")
        wound = number("setting.travel_whole") + job.within("travel_give")
        travel = travel_by_dial(reading, wound, job.bar_slope(), job.within("plunger_give"), square_to)
        return job.turned_part(job.clamped(travel), job.square())

    def entries(job: Job) -> dict[str, str]:
        return {"setting.way": "one_dial", "setting.plunger": square_to, "setting.travel": "60 mm"}

    return Carried(entries, errors)


def _master() -> Carried:
    """The indicator's point runs in a level plane along the slide; the master's side is a hyperbola there."""

    def entries(job: Job) -> dict[str, str]:
        return {"setting.way": "master", "setting.sweep_length": f"{0.98 * job.length!r} mm"}

    def errors(job: Job, entries: dict[str, str], number: Number) -> Array:
        swept = float(entries["setting.sweep_length"].split()[0])
        wanted = number("setting.dial_whole") + job.within("sweep_give")
        height = job.within("dial_height_give")
        # The master's own slope: its error is given on diameter over the length it was measured over.
        slope = 0.5 * (job.large - job.small) / job.length + 0.5 * job.within("master_give") / MASTER
        leans = job.within("true_give") / MASTER
        big = 0.5 * job.large

        def side(x: Array) -> Array:
            """Where the point meets the master, from its axis towards the operator, x from its large end."""
            return np.sqrt(np.maximum((big - slope * x) ** 2 - height**2, 0.0))

        low, high = np.zeros(job.count), np.full(job.count, 1.2)
        for _ in range(60):
            angle = 0.5 * (low + high)
            x = swept * np.cos(angle)
            # Plunger square to the axis: it goes in by what the slide comes nearer and the side falls away.
            goes_in = swept * np.sin(angle) - (side(np.zeros(job.count)) - side(x)) - leans * x
            over = goes_in > wanted
            low, high = np.where(over, low, angle), np.where(over, angle, high)
        return job.turned_part(job.clamped(_along(low)), job.square())

    return Carried(entries, errors)


def _set_over(centres: str) -> Carried:
    def entries(job: Job) -> dict[str, str]:
        long = job.length * job.chance.uniform(1.5, 4.0)
        asked = {"setting.way": "set_over", "setting.centres": centres}
        asked |= {"setting.work_length": f"{long:.3f} mm", "setting.centre_depth": "0 mm"}
        if centres == "ball":
            asked |= {"setting.over_balls": f"{long:.3f} mm", "setting.ball": "6 mm"}
        return asked

    def errors(job: Job, entries: dict[str, str], number: Number) -> Array:
        over = number("setting.set_over_whole") + job.within("dial_give")
        over = over * np.cos(job.within("plunger_give"))
        long = float(entries["setting.work_length"].split()[0]) + job.within("lengths_give")
        if centres == "ball":
            long = long - 6.0
        else:
            long = long + job.within("centre_give") + job.within("centre_give")
        askew = np.arcsin(over / long) + 0.5 * job.within("axis_give") / AXIS
        return job.turned_part(_along(job.square()), -np.tan(askew))

    return Carried(entries, errors)


def _attachment(by: str) -> Carried:
    def entries(job: Job) -> dict[str, str]:
        return {
            "setting.way": "attachment",
            "setting.attachment_by": by,
            "setting.attachment_scale": "degrees",
            "setting.travel": "60 mm",
        }

    def errors(job: Job, entries: dict[str, str], number: Number) -> Array:
        if by == "scale":
            told = number("setting.attachment_whole")
            travel = _along(told + job.within("graduation_give"))
            return job.turned_part(job.clamped(travel), 0.5 * job.within("axis_give") / AXIS)
        across = number("setting.cross_whole") + job.within("dial_give")
        far = number("setting.travel_whole") + job.within("travel_give")
        # The carriage runs along the bed; a plunger askew by d goes 1 / cosine as far.
        across = across * np.cos(job.within("plunger_give"))
        angle = np.arctan2(across, far) + job.bar_slope()
        return job.turned_part(job.clamped(_along(angle)), job.square())

    return Carried(entries, errors)


def _graduations() -> Carried:
    def entries(job: Job) -> dict[str, str]:
        return {"setting.way": "graduations", "setting.zero": "axis"}

    def errors(job: Job, entries: dict[str, str], number: Number) -> Array:
        travel = _along(number("setting.degrees_whole") + job.within("graduation_give"))
        return job.turned_part(job.clamped(travel), 0.5 * job.within("axis_give") / AXIS)

    return Carried(entries, errors)


def _collars() -> Carried:
    def entries(job: Job) -> dict[str, str]:
        return {"setting.way": "collars", "setting.collar_room": f"{0.9 * job.length:.3f} mm"}

    def errors(job: Job, entries: dict[str, str], number: Number) -> Array:
        apart = round(number("setting.collar_distance") / 0.01) * 0.01 + job.within("travel_give")
        # Measured right to within what was left, by a micrometer that is out at each collar by itself.
        differ = number("setting.collar_difference") + job.within("collar_left")
        differ = differ + job.within("collar_give") + job.within("collar_give")
        return job.turned_part(_along(np.arctan2(0.5 * differ, apart)), job.square())

    return Carried(entries, errors)


WAYS: Mapping[str, Carried] = {
    "one_dial": _one_dial("axis"),
    "one_dial, plunger square to the slide": _one_dial("slide"),
    "two_dials": _two_dials("slide"),
    "two_dials along the axis": _two_dials("axis"),
    "two_dials by the carriage": _two_dials("carriage"),
    "master": _master(),
    "set_over": _set_over("plain"),
    "set_over on balls": _set_over("ball"),
    "attachment by dial": _attachment("dial"),
    "attachment by its scale": _attachment("scale"),
    "graduations": _graduations(),
    "collars": _collars(),
}
"""Ways beside the bar's, which has its own laboratory, and the plate's, which turns nothing."""


def invented(chance: random.Random, seed: int, count: int, scale: float | None, steepest: float = 8.0) -> Job:
    """A job at what a shop knows things to, times `scale`; each by its own factor where that is None."""
    large = chance.uniform(15.0, 50.0)
    half = math.radians(chance.uniform(0.8, steepest))
    length = min(0.8 * 0.5 * large / math.tan(half), chance.uniform(30.0, 110.0))
    small = large - 2.0 * length * math.tan(half)

    def give(name: str, usual: float) -> float:
        times = scale if scale is not None else 10.0 ** chance.uniform(-1.0, 1.0)
        return float(f"{min(usual * times, WIDEST.get(name, 1.0)):.3g}")

    known = {name: give(name, usual) for name, usual in {**USUAL, **ANGLES}.items()}
    known["tool_height"] = min(known["tool_height"], 0.15 * small)
    known["dial_height_give"] = min(known["dial_height_give"], 0.15 * small)
    known["lengths_give"] = min(known["lengths_give"], 1.0)
    warm = chance.choice((0.0, 3.0)) * (scale if scale is not None else 1.0)
    return Job(large, small, length, known, float(round(warm)), chance, np.random.default_rng(seed), count)
