"""Simulated old tapers and what is measured on them: written apart from the core, by what it says it assumes.

A taper is drawn (series alike, sizes alike; one in ten is no standard at all), made with its rate out by as
much as is customary, ended where the maker ended it, and measured somewhere with tools that read in steps, so
that the ± is that of the rounding. Only the tables are the core's own.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass

from calc.identify.evidence import Evidence, Measured, StandOff, TwoDiameters
from calc.tables import ALL_SERIES, Taper, all_tapers, find_taper
from calc.tables.at import angle_tolerance

NONE_SHARE = 0.1
CUSTOMARY_RATE = 0.002 / 12  # in per foot, half-width: an engineering reference table of Morse shanks
PROPORTIONS = {"Taper pin": 8, "Taper pin inch": 8, "Spindle nose": 0.5, "HSK-A": 0.5, "ER": 1, "R8": 0.75}
ANY_SIZE = ("Cone", "Bearing bore", "Centre", "5C")


@dataclass
class Part:
    """One part on the bench: which taper it truly is (None: no standard), as made [mm, plain]."""

    truth: Taper | None
    rate: float
    large: float  # at the end it has
    length: float  # of the taper it has; 0 where it was not drawn


def log_between(dice: random.Random, lowest: float, highest: float) -> float:
    return math.exp(dice.uniform(math.log(lowest), math.log(highest)))


def made(dice: random.Random, rate: float, length: float | None) -> float:
    """The rate as made: within the customary limits, one in twenty within three times as much."""
    zone = angle_tolerance("AT8", min(max(length or 80.0, 6.01), 630.0))
    assert zone is not None
    half = max(CUSTOMARY_RATE, zone.angle / 2)
    if dice.random() < 0.05:
        half *= 3
    # The included angle is what is out; the rate is 2 tan of its half.
    return 2 * math.tan(math.atan(rate / 2) + dice.uniform(-half, half) / 2)


SIZES = {each.value: [taper for taper in all_tapers() if taper.series == each.value] for each in ALL_SERIES}


def draw(dice: random.Random, rate_only: bool = False) -> Part:
    if dice.random() < NONE_SHARE:
        return Part(None, log_between(dice, 0.002, 3.47), log_between(dice, 0.5, 600), 0.0)
    taper = dice.choice(SIZES[dice.choice(ALL_SERIES).value])
    values = {name: datum.value for name, datum in taper.data.items()}
    rate, large, small = values["rate"], values.get("large_diameter"), values.get("small_diameter")
    if large is None and small is None:
        if taper.series not in ANY_SIZE and not rate_only:
            return draw(dice, rate_only)
        return Part(taper, made(dice, rate, None), log_between(dice, 0.5, 600), 0.0)
    fixed = large if large is not None else small
    assert fixed is not None
    length = values.get("length")
    usual = length or min(PROPORTIONS.get(taper.series, 1.5) * fixed, 0.4 * fixed / rate)
    actual = made(dice, rate, usual)
    at_large = dice.uniform(-1, 1) * (0.1 if dice.random() < 0.9 else 0.3) * usual
    kind = dice.random()
    at_small = dice.uniform(-1, 1) * (0.03 if kind < 0.6 else 0.1 if kind < 0.9 else 0.3) * usual
    if not length:
        if large is not None:
            at_small = dice.uniform(-0.5, 0.5) * usual
        else:
            at_large = dice.uniform(-0.5, 0.5) * usual
    elif dice.random() < 0.2:
        at_small = -dice.uniform(0.0, 0.7) * usual
    # Of a taper told by its small diameter alone the large end is the one away from it.
    at_gauge = large if large is not None else fixed + rate * usual
    return Part(taper, actual, at_gauge + actual * at_large, usual + at_large + at_small)


def read(value: float, step: float) -> Measured:
    """As a tool with this step shows it."""
    return Measured(round(value / step) * step, step / 2)


def two_diameters(dice: random.Random, part: Part) -> Evidence | None:
    """Two diameters somewhere on it; None where nobody could measure so."""
    apart = dice.betavariate(2, 2) * part.length if part.length else log_between(dice, 2, 300)
    above = dice.random() * (part.length - apart) if part.length else 0.0
    large = part.large - part.rate * above
    small = large - part.rate * apart
    step, distance_step = dice.choice((0.001, 0.002, 0.01, 0.02)), dice.choice((0.01, 0.05, 0.2))
    readings = read(large, step), read(small, step), read(apart, distance_step)
    if apart < 1.0 or small <= 0.1 or readings[1].value >= readings[0].value:
        return None
    return Evidence(diameters=TwoDiameters(*readings))


def with_its_length(dice: random.Random, part: Part) -> Evidence | None:
    """Two diameters, and the taper's length from end to end by a rule."""
    found = two_diameters(dice, part)
    if found is None:
        return None
    length = part.length
    if not length:
        assert found.diameters is not None
        length = log_between(dice, 2, 300)
        if length < found.diameters.apart.value:
            return None
    return Evidence(diameters=found.diameters, length=read(length, dice.choice((0.1, 1.0))))


def end_and_length(dice: random.Random, part: Part) -> Evidence | None:
    """No more than the diameter at the large end and the length, with the rate by a sine bar."""
    length = part.length or log_between(dice, 2, 300)
    if length < 1.0:
        return None
    end, rate = read(part.large, dice.choice((0.02, 0.1))), read(part.rate, 0.0002)
    return Evidence(rate=rate, end_diameter=end, length=read(length, 1.0)) if rate.value > 0 else None


def rate_alone(dice: random.Random, part: Part) -> Evidence | None:
    reading = read(part.rate, dice.choice((0.0001, 0.0005, 0.002)))
    return Evidence(rate=reading) if reading.value > 0 else None


SOCKETS = [("Morse", "1"), ("Morse", "2"), ("Morse", "3"), ("Jarno", "6"), ("7/24", "40")]


def stands_off(dice: random.Random, part: Part) -> Evidence | None:
    """Tried in a socket, and the rate measured: where it rests is found by walking down, not by formula."""
    taper = find_taper(*dice.choice(SOCKETS))
    assert taper is not None
    socket_rate, mouth, depth = (taper.data[name].value for name in ("rate", "large_diameter", "length"))
    length = part.length or log_between(dice, 2, 300)
    if part.large - part.rate * length <= 0:
        return None
    proud = rests(part.rate, part.large, length, socket_rate, mouth, depth)
    if proud is None:
        return None
    step = dice.choice((0.1, 0.5))
    rate = read(part.rate, 0.0005)
    return Evidence(stand_off=StandOff(taper, read(proud, step)), rate=rate)


def rests(
    rate: float, large: float, length: float, socket_rate: float, mouth: float, depth: float
) -> float | None:
    """How far the plug's large end stands out: pushed in until it touches at any of many planes [mm].

    None where it does not touch at all, falling through.
    """
    lowest, highest = -depth, length
    for _ in range(60):
        proud = (lowest + highest) / 2
        planes = [max(0.0, -proud), min(depth, length - proud)]  # straight flanks can only touch at an end
        clash = planes[1] >= planes[0] and any(
            large - rate * (z + proud) > mouth - socket_rate * z for z in planes
        )
        lowest, highest = (proud, highest) if clash else (lowest, proud)
    return highest if -depth + 0.01 < highest < length - 0.01 else None
