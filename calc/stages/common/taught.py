"""What proved cuts have taught of this lathe, its bar and the drawer's pieces: read from `history`, used in
setting.

The records are the person's; what they teach is worked out anew from them each time. It is allowed for where
the set-ups come out to one side more surely than not, and where the person has not left it out."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from calc.doubt.doubts import DOUBTS, PIECE, is_steady
from calc.doubt.task import Task
from calc.drawer import Piece
from calc.estimate import Estimate, source_of
from calc.gauging.belief import Belief, Lesson, believe
from calc.gauging.record import AFRESH, TAPPED, UNCHANGED, Record, lessons

USE = "proving.learned_use"
MARK = "proving.slide_mark"
SINCE = "proving.since"
ALLOW, LEAVE_OUT = "allow", "leave_out"
BELONGS: Mapping[str, str] = {
    "setting.bar_give": "bar",
    "setting.roller_give": "bar",
    "setting.edge_give": "bar",
    "setting.side_give": "slide",
    "setting.axis_give": "slide",
}
"""By steady doubt, the gear it is of: another bar or a slide that was seen to starts it afresh."""
FEW = 4
_BELIEFS: dict[tuple[object, ...], tuple[Sequence[Record], Belief]] = {}
"""The last beliefs, with the records they are of: as long as these are held, no id is used twice."""
SURER = 0.675
"""Standard uncertainties from which an error is on its side at three chances to one."""


@dataclass(frozen=True, slots=True)
class Taught:
    """The records of proved cuts, the gear in use, and whether what they teach is to be allowed for."""

    records: Sequence[Record] = ()
    allowed: bool = True
    mark: str = ""
    pieces: Sequence[Piece] = ()

    def gear(self, task: Task) -> dict[str, str]:
        """What is in use, by name: it changes when the bar's length or the slide's mark is entered anew."""
        centres = task.lengths.get("setting.bar_centres")
        rollers = task.lengths.get("setting.roller_difference", 0.0)
        bar = "" if centres is None else f"{centres:.4f} mm, rollers {rollers:.4f} mm"
        return {"bar": bar, "slide": self.mark}

    def count(self, task: Task) -> int:
        """How many of the cuts teach something of the bar and slide in use."""
        gear = self.gear(task)
        return sum(
            record.since == AFRESH
            and not record.surprise
            and any(record.gear.get(k) == v for k, v in gear.items())
            for record in self.records
        )

    def belief(self, task: Task, more: Sequence[Lesson] = ()) -> Belief:
        """What all records teach for this task, and `more`."""
        gear, known = self.gear(task), units(task, self.pieces)
        key = (*map(id, self.records), *gear.items(), *known.items())
        # Between two key presses the records are the same ones, and the last few beliefs with them.
        if key not in _BELIEFS:
            while len(_BELIEFS) >= FEW:
                _BELIEFS.pop(next(iter(_BELIEFS)))
            _BELIEFS[key] = self.records, believe(lessons(self.records, gear, known, BELONGS))
        belief = _BELIEFS[key][1]
        return belief.with_more(more) if more else belief

    def name(self, key: str) -> str:
        """A doubt's name that lasts: a piece goes by what it is called and measures, not by its place."""
        if not key.startswith(PIECE):
            return source_of(key) if key in DOUBTS else key
        place = int(key.rsplit(" ", 1)[1])
        piece = next((each for each in self.pieces if each.place == place), None)
        return f"{PIECE}{piece.name} {piece.size_nm}" if piece else key

    def on(self, belief: Belief) -> Callable[[Estimate], Estimate]:
        """What takes an angle to what is known of it."""
        return lambda angle: belief.known_by(angle, self.name)

    def previous(self, task: Task, way: str) -> Record | None:
        """The last proved cut of this very job, set this way."""
        job = job_of(task, way)
        return next((record for record in reversed(self.records) if record.same_job(job)), None)

    def when_set_up(self, task: Task, way: str, since: str) -> Taught:
        """What was taught when this job was set up, where the setting still stands; else all of it.

        since: how the setting stands since the last proved cut. The records from the first of that set-up on
        are of what stands: they do not say what it was set to."""
        if since not in (TAPPED, UNCHANGED):
            return self
        job = job_of(task, way)
        first = [at for at, one in enumerate(self.records) if one.since == AFRESH and one.same_job(job)]
        return replace(self, records=self.records[: first[-1]]) if first else self

    def aimed(self, task: Task, angle: Estimate, belief: Belief | None = None) -> Task:
        """The task with what is known in it; aimed to the other side where that is surer than not.

        angle: what the task as it stands comes to, by its own doubts alone.
        """
        if not self.allowed or (belief is None and not self.records):
            return task
        known = belief or self.belief(task)
        if not known.count:
            return task
        on = self.on(known)
        steady = steady_part(on(angle), angle, self.name, known)
        off = steady.value if abs(steady.value) >= SURER * steady.standard else 0.0
        return replace(task, learned=on, aim=task.aim - off)


def steady_part(known: Estimate, angle: Estimate, name: Callable[[str], str], belief: Belief) -> Estimate:
    """What the steady doubts that were met put into an angle [rad], as it is believed."""
    parts = {key: part for key, part in known.parts.items() if name(key) in belief.keys}
    return Estimate(known.value - angle.value, parts)


def taught_by(records: Sequence[Record], entries: Mapping[str, str], pieces: Sequence[Piece] = ()) -> Taught:
    """What these records teach, unless the person leaves it out."""
    allowed = entries.get(USE, "").strip().casefold() != LEAVE_OUT
    return Taught(records, allowed, entries.get(MARK, "").strip(), pieces)


def units(task: Task, pieces: Sequence[Piece] = ()) -> dict[str, float]:
    """Half-widths of the steady doubts of this task, each in its own unit: over a length as a slope."""
    found: dict[str, float] = {}
    for key, half in task.doubts.items():
        if not is_steady(key):
            continue
        over = DOUBTS[key].over
        span = task.lengths.get(over.id, 0.0) if over else 1.0
        if span > 0.0:
            found[key] = half / span
    for piece in pieces:
        found[f"{PIECE}{piece.name} {piece.size_nm}"] = piece.standard_nm * math.sqrt(3.0) / 1e6
    return found


def job_of(task: Task, way: str) -> Mapping[str, object]:
    """What makes a later cut one of the same job: the taper and how it is set."""
    cone = task.cone
    return {
        "rate": round(cone.rate, 9),
        "large": round(cone.large_diameter or 0.0, 4),
        "length": round(cone.length or 0.0, 4),
        "form": task.form,
        "way": way,
    }
