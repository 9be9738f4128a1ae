"""What a reader answers: a Reading when the text could be read, an Unreadable when it could not."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


class Unreadable(ValueError):
    """Text that could not be read as the quantity asked for, with the place of the fault and a way out.

    Attributes:
        text: the text exactly as it was given.
        start, end: where in `text` the fault is, as a half-open range of character positions.
        message: what is wrong, in shop English.
        way_out: what would work.
        offers: whole texts to put in its place; each of them can be read.
    """

    def __init__(
        self, text: str, start: int, end: int, message: str, way_out: str, offers: tuple[str, ...] = ()
    ) -> None:
        super().__init__(message)
        self.text = text
        self.start = start
        self.end = end
        self.message = message
        self.way_out = way_out
        self.offers = offers


@dataclass(frozen=True, slots=True)
class Reading:
    """A quantity as it was read.

    Attributes:
        exact: the quantity without rounding: mm, degrees, plain ratio or count.
            (An angle typed in radians is the one exception; see `angle`.)
        value: the same as a float: [mm], [rad] or plain.
        understood: a text with its unit that reads back to the same `exact`, whatever the field's unit.
        note: what had to be decided in reading, "" where nothing was.
        resolution: what one unit in the last decimal typed is worth, in the unit of `value`: 0.700 is told
            finer than 0.7. 0 where nothing tells it: whole numbers, fractions, sums, names.
    """

    exact: Fraction
    value: float
    understood: str
    note: str = ""
    resolution: float = 0.0
