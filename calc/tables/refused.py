"""What sources print and the tables do not follow, each with the reason: kept, so that nobody need wonder."""

from __future__ import annotations

from dataclasses import dataclass

from calc.tables.loader import load
from calc.tables.published import source_title


@dataclass(frozen=True, slots=True)
class Refused:
    """A printed value that was not taken, in its own text and unit, where it was read and why not."""

    series: str
    size: str
    datum: str
    text: str
    unit: str
    sources: tuple[str, ...]
    reason: str

    def words(self) -> str:
        """The value, its source and the reason in one sentence."""
        named = "; ".join(source_title(key) for key in self.sources)
        return f"{named} prints {self.text} {self.unit}; not taken: {self.reason}."


def refused(series: str = "", size: str = "") -> tuple[Refused, ...]:
    """The refused values of a taper, of a series where no size is named, or all of them."""
    return tuple(
        Refused(
            row["series"],
            row["size"],
            row["datum"],
            row["value"],
            row["unit"],
            tuple(row["sources"].split()),
            row["note"].removeprefix("arithmetic: "),
        )
        for row in load("disagreements")
        if series in ("", row["series"]) and size in ("", row["size"])
    )
