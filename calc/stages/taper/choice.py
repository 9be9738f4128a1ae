"""Where the cone comes from: a standard taper, or the person's own measures."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from calc.cone import STEEPEST_RATE, Cone, Disagreement, Unsolved, solve
from calc.doubt.asks import Ask
from calc.quantities import shown_angle, shown_length, shown_rate
from calc.sheet import Caution
from calc.stages.common.form import Form
from calc.tables import Datum, Taper, find_taper, sizes

OWN = "own"
MEASURES = {
    "large_diameter": "large diameter",
    "small_diameter": "small diameter",
    "length": "length",
    "rate": "taper on diameter",
    "half_angle": "half angle",
    "included_angle": "included angle",
}
MOST = 10000.0  # [mm]
NO_LENGTH = {"mm": "100 mm", "inch": "3.94 in"}
"""`CUSTOMARY_LENGTH` in words."""

PART = ("part_large_diameter", "part_length")
"""Asked of a picked taper in place of the measures below, where those are of something measured before."""

# The choice of an unknown taper and what only it asks stand here, since its stage is read late.
UNKNOWN = "unknown"
UNKNOWN_LABEL = "Unknown taper: identify it"
UNKNOWN_ASKS = (
    "diameter_give",
    "length_give",
    "rate_give",
    "stand_off",
    "stand_off_give",
    "socket_series",
    "socket_size",
    "end_diameter",
    "whole_length",
    "go_on",
)


@dataclass(frozen=True, slots=True)
class ConeFound:
    """The cone where it is known, the standard it is of, and what is wanted still."""

    cone: Cone | None = None
    standard: Taper | None = None
    wanted: str = ""


def standard(form: Form, series: str) -> ConeFound:
    """A standard taper, over its own length or the length wanted on this part.

    What its table does not give (some series are an angle only) may be entered; else the angle stands alone.
    Measures of an unknown or other taper, still there though no longer asked, do not become this one's: a
    small diameter tells that there are some, since no picked taper asks for it.
    """
    part = "part_" if form.given("taper.small_diameter") else ""
    size = form.pick(Ask("taper.size", "Size", "choice", choices=[(each, each) for each in sizes(series)]))
    taper = find_taper(series, size) if size else None
    if taper is None:
        return ConeFound(wanted="choose a size")
    told = {
        name: _told(form, taper, name, label, part)
        for name, label in (
            ("large_diameter", "Large diameter"),
            ("length", "Length of taper on this part"),
        )
        if name == "length" or name not in taper.data
    }
    if form.wrong:
        return ConeFound(standard=taper)
    measures = {name: taper.data[name].value for name in ("rate", "large_diameter") if name in taper.data}
    measures.update({name: value for name, value in told.items() if value is not None})
    if "large_diameter" not in measures and "length" in measures and "small_diameter" in taper.data:
        measures["small_diameter"] = taper.data["small_diameter"].value
    cone = solve(measures)
    if _to_a_point(form, taper, cone, part):
        return ConeFound(standard=taper)
    return ConeFound(cone, taper)


def _told(form: Form, taper: Taper, name: str, label: str, part: str) -> float | None:
    """A measure of this part; empty, the table's own where it has one."""
    entry = f"taper.{part}{name}"
    if name not in taper.data:
        return form.number(
            Ask(
                entry,
                label,
                "length",
                least=0.01,
                most=MOST,
                help="Not in the table. Empty: only the angle is known, and errors are given over"
                f" {NO_LENGTH[form.system]}.",
            )
        )
    usual = taper.data[name]
    where = f", {usual.note}" if usual.note else ""
    value = form.number(
        Ask(
            entry,
            label,
            "length",
            shown_length(usual.value),
            least=0.1,
            most=MOST,
            help=f"Empty: {_printed(usual, form.system)} as in the table{where}.",
            one_number=True,
        )
    )
    # The default is shown rounded in the other system; the table's own number is what counts.
    return value if form.given(entry) else usual.value


def _printed(datum: Datum, system: str) -> str:
    """A length as printed, after the same in the person's system where that is the other one."""
    printed = f"{datum.text} {datum.unit}"
    if (datum.unit == "in") == (system == "inch"):
        return printed
    return f"{shown_length(datum.value, 0.01)[system]} ({printed})"


def _to_a_point(form: Form, taper: Taper, cone: Cone, part: str) -> bool:
    """Refuse a length beyond the tip of the cone."""
    if not cone.large_diameter or cone.small_diameter is None or cone.small_diameter > 0:
        return False
    tip = shown_length(cone.large_diameter / cone.rate)[form.system]
    form.refuse(
        f"taper.{part}length",
        "At this length the taper would come to a point",
        f"{taper.name} comes to a point {tip} from the gauge plane; stay well short of that.",
    )
    return True


def from_memory(taper: Taper) -> list[Caution]:
    """One caution that names every datum no source was at hand for."""
    names = [MEASURES.get(name, name) for name in taper.from_memory if name != "small_diameter"]
    if not names:
        return []
    return [
        Caution(
            "care",
            f"From memory, not checked against the standard: {', '.join(names)} of {taper.name}.",
            "Hold the standard or a good part beside it before you rely on it.",
        )
    ]


def own(form: Form) -> ConeFound:
    """A taper from the person's own measures: any sufficient set, contradictions named."""
    told: dict[str, float | None] = {
        "large_diameter": form.number(
            Ask("taper.large_diameter", "Large diameter", "length", least=0.01, most=MOST)
        ),
        "small_diameter": form.number(
            Ask("taper.small_diameter", "Small diameter", "length", least=0.01, most=MOST)
        ),
        "length": form.number(
            Ask("taper.length", "Length between them, along the axis", "length", least=0.01, most=MOST)
        ),
        "rate": form.number(
            Ask(
                "taper.rate",
                "or taper on diameter (taper per foot)",
                "rate",
                most=STEEPEST_RATE,
                help="For example 1:20, 0.602 in/ft or 5 %.",
            )
        ),
        "included_angle": form.number(
            Ask("taper.included_angle", "or included angle", "angle", least=0.0, most=math.radians(170.0))
        ),
        "half_angle": form.number(
            Ask("taper.half_angle", "or half angle", "angle", least=0.0, most=math.radians(85.0))
        ),
    }
    if form.wrong:
        return ConeFound()
    measures = {name: value for name, value in told.items() if value is not None}
    try:
        return ConeFound(solve(measures, {name: 0.5 * form.resolution(f"taper.{name}") for name in measures}))
    except Unsolved as error:
        return ConeFound(wanted=f"enter {error.needed}")
    except Disagreement as error:
        _name_disagreement(form, measures, error.would_be)
        return ConeFound()


def _name_disagreement(form: Form, measures: Mapping[str, float], would_be: Mapping[str, float]) -> None:
    """Say beside each measure what it would have to be for the others to stand, and how far off that is."""
    for name, value in would_be.items():
        others = " and ".join(MEASURES[other] for other in would_be if other != name)
        wanted = _in_words(name, value)[form.system]
        off = ""
        if name in measures and not name.endswith("angle") and name != "rate":
            change = value - measures[name]
            off = f", {shown_length(abs(change))[form.system]} {'more' if change > 0 else 'less'}"
        form.refuse(
            f"taper.{name}",
            f"This does not agree with the {others}",
            f"For the others to stand it would have to be {wanted}{off}; or clear one of them.",
        )


def _in_words(name: str, value: float) -> Mapping[str, str]:
    if name == "rate":
        return shown_rate(value)
    return shown_angle(value) if name.endswith("angle") else shown_length(value)
