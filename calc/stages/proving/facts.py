"""What the proving stage finds: what was expected, what was seen, what is believed, and what is best done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calc.doubt.budget import Budget
from calc.doubt.task import Task
from calc.drawer import Stack
from calc.estimate import Estimate
from calc.gauging.contradictions import Contradiction
from calc.gauging.evidence import Believed, Expected
from calc.gauging.judge import Verdict
from calc.gauging.left import Size
from calc.gauging.record import Record
from calc.gauging.way import Part, Seen
from calc.setting.way import Answer, Correction
from calc.sheet import Figure
from calc.stages.common.taught import Taught
from calc.stages.proving.rows import RowsRead

ID = "proving"


@dataclass(frozen=True, slots=True)
class ProvingEntries:
    """What was entered beside the observations [mm, K]; `since`: how the slide stands since the last cut."""

    since: str
    tap: float | None
    tap_at: float
    last_cut: float
    gauge_give: float
    warmer: float | None
    sine_height: float | None = None
    plain_height: float | None = None


@dataclass(frozen=True, slots=True)
class Anew:
    """Setting it up anew with what is now known: the task, the way's answer, the stack and what comes of it.

    removed, added: names of the pieces to take out of the stack as it stands and to put in. correction: the
    change in the way's own number, where it wants no stack.
    """

    task: Task
    answer: Answer
    budget: Budget
    stack: Stack | None = None
    removed: Sequence[str] = ()
    added: Sequence[str] = ()
    correction: Correction | None = None

    @property
    def touched(self) -> int:
        """Pieces taken out and put in."""
        return len(self.removed) + len(self.added)


@dataclass(frozen=True, slots=True)
class Tap:
    """A tap under an indicator: what was seen of the cut stays true, but for the tap's own doubt.

    turn: of the half angle [rad], above 0 steeper. at: how far from the pivot the indicator stands [mm].
    reading: how far it must move [mm]. standard: what the turn is known to [rad]. what: "slide", "guide" or
    "tailstock", whatever is moved.
    """

    turn: float
    at: float
    reading: float
    standard: float
    what: str = "slide"


@dataclass(frozen=True, slots=True)
class Proved:
    """All that follows from the observations of the cut in hand.

    limit: either way on the half angle [rad], None where the grade does not reach. film: of blue [mm], None
    where it is not told. believed: None where what was seen contradicts itself."""

    part: Part
    task: Task
    seen: Sequence[Seen]
    expected: Expected
    limit: float | None
    contradictions: Sequence[Contradiction]
    film: float | None = None
    believed: Believed | None = None
    surprise: bool = False
    verdict: Verdict | None = None
    tap: Tap | None = None
    anew: Anew | None = None
    size: Size | None = None
    record: Record | None = None


@dataclass(frozen=True, slots=True)
class ProvingFacts:
    """The entries (None where something needs mending), the observations, and what follows.

    metal: to be left on diameter for proving [mm]; None while the taper is not known. metal_before: the same
    as it was before anything was seen, which is when cutting stopped for it. steady: what set-ups
    here come out by [rad], as taught before this cut; None where nothing was taught. limit: either way
    [rad]."""

    entries: ProvingEntries | None
    rows: RowsRead
    taught: Taught
    part: Part | None = None
    metal: float | None = None
    metal_before: float | None = None
    steady: Estimate | None = None
    allowed_for: bool = False
    count: int = 0
    plain: Sequence[Figure] = ()
    limit: float | None = None
    proved: Proved | None = None
    previous: Record | None = None
