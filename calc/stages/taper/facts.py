"""What the taper stage finds, for the stages after it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.cone import Cone
from calc.tables import Taper

if TYPE_CHECKING:
    from calc.stages.taper.unknown import Unknown

ID = "taper"


@dataclass(frozen=True, slots=True)
class TaperFacts:
    """The cone where it is known, its name, how it lies and its standard.

    form: "external" or "internal"; small_end: "tailstock" or "headstock"; None where the entry is wrong.
    wanted: what is missing for the cone, in words. unknown: what the measures of an unknown taper say.
    """

    cone: Cone | None
    name: str
    form: str | None
    small_end: str | None
    standard: Taper | None = None
    wanted: str = ""
    unknown: Unknown | None = None

    @property
    def lies(self) -> str:
        """How the taper lies, external where that is not known."""
        return self.form or "external"
