"""What the stage of the blank finds, for the stages after it."""

from __future__ import annotations

from dataclasses import dataclass

from calc.cone import Cone
from calc.machining.blank import DRAWBAR, PLAIN, TANG, Finished, Leave, Plan
from calc.machining.stock import CentreHole
from calc.tables.shanks import Shank

ID = "blank"
TITLE = "Blank"
END_LABELS = {TANG: "tang", DRAWBAR: "drawbar thread", PLAIN: "plain"}


@dataclass(frozen=True, slots=True)
class End:
    """Which end the shank gets, and what the tables tell of it."""

    kind: str
    shank: Shank | None

    @property
    def told(self) -> bool:
        """Whether the tables tell this end's measures."""
        data = self.shank.data if self.shank else {}
        if self.kind == TANG:
            return "tang_thickness" in data
        return self.kind == PLAIN or bool(self.shank and self.shank.threads)


@dataclass(frozen=True, slots=True)
class Bar:
    """The bar to take: as it is called, its diameter [mm], and whether it is one the person has."""

    name: str
    diameter: float
    owned: bool


@dataclass(frozen=True, slots=True)
class Planned:
    """Finished shank, plan, bar (None where none is thick enough), centre hole, allowances and head [mm]."""

    part: Finished
    plan: Plan
    bar: Bar | None
    centre: CentreHole
    leave: Leave
    head: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class BlankFacts:
    """What is known of the blank.

    end: of the shank, None for a socket or where the entry is wrong. planned: None where there is none.
    bore_allowance: of a socket, what stays in the bore's diameter for the boring bar [mm]. pipe: of a taper
    pipe thread the cone over its crests, to the gauge plane, which is what is turned and measured.
    """

    end: End | None = None
    planned: Planned | None = None
    bore_allowance: float | None = None
    pipe: Cone | None = None

    @property
    def cone(self) -> Cone | None:
        """The cone that is really turned, past the gauge plane to the shoulder; None without a plan."""
        return self.planned.part.cone if self.planned else None

    @property
    def start_diameter(self) -> float | None:
        """What the shank is roughed to [mm]: where the taper begins."""
        return self.planned.plan.roughs[0].diameter if self.planned else None
