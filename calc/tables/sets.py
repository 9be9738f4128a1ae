"""Customary sets of drills, feeler leaves and gauge blocks, to fill a drawer in one go."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from calc.tables.drills import drills
from calc.tables.loader import load
from calc.tables.published import Origin, origin_of

_NAMES = {"round": "drill", "flat": "block", "leaf": "leaf"}
_DRILL_SERIES = ("number", "letter", "fraction", "metric")


@dataclass(frozen=True, slots=True)
class SetPiece:
    """One piece of a set: its name, and its size as text with unit, which the reader of lengths takes."""

    name: str
    size: str


@dataclass(frozen=True, slots=True)
class PieceSet:
    """A customary set. shape: "round", "flat" or "leaf", as in the drawer."""

    key: str
    label: str
    shape: str
    pieces: tuple[SetPiece, ...]
    found: Origin


@cache
def sets() -> tuple[PieceSet, ...]:
    """All customary sets, in the order of the table."""
    return tuple(
        PieceSet(row["key"], row["label"], row["shape"], tuple(_pieces(row)), origin_of(row))
        for row in load("sets")
    )


def _pieces(row: Mapping[str, str]) -> Iterator[SetPiece]:
    kind, unit = _NAMES[row["shape"]], row["unit"]
    for group in row["value"].split("; "):
        series, _, rest = group.partition(" ")
        if series in _DRILL_SERIES:
            yield from _drills(series, rest)
        else:
            for text in _steps(group):
                yield SetPiece(f"{text} {unit} {kind}", f"{text} {unit}")


def _drills(series: str, span: str) -> Iterator[SetPiece]:
    """The drills of a series from one name to another, at every step or at all of the series."""
    known = drills(series)
    ends, _, step = span.partition(" by ")
    first, _, last = ends.partition(" to ")
    names = list(known)
    names = names[names.index(first) : names.index(last) + 1]
    if step:
        names = [name for name in names if (Fraction(name) - Fraction(first)) % Fraction(step) == 0]
    mark = "#" if series == "number" else ""
    for name in names:
        yield SetPiece(f"{mark}{name} drill", known[name])


def _steps(group: str) -> Iterator[str]:
    """The sizes that `0.1001 to 0.1009 by 0.0001` or a single size means, written with the decimals given."""
    ends, _, step = group.partition(" by ")
    first, _, last = ends.partition(" to ")
    places = max(len(text.partition(".")[2]) for text in (first, step))
    scale = 10**places
    start = int(Fraction(first) * scale)
    stop = int(Fraction(last or first) * scale)
    for number in range(start, stop + 1, int(Fraction(step) * scale) if step else 1):
        whole, part = divmod(number, scale)
        yield f"{whole}.{part:0{places}d}" if places else str(whole)
