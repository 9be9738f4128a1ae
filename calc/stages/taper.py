"""First stage: which taper, and which way it lies in the lathe."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from calc.cone import STEEPEST_RATE, Cone, Disagreement, Unsolved, solve
from calc.drawings.taper import taper_picture
from calc.quantities import shown_angle, shown_length, shown_rate
from calc.sheet import Figure, Stage, Working, same
from calc.stages.form import Form
from calc.tables import SERIES, Taper, find_taper, sizes

ID = "taper"
TITLE = "Taper"
OWN = "own"
MEASURES = {
    "large_diameter": "large diameter",
    "small_diameter": "small diameter",
    "length": "length",
    "rate": "taper on diameter",
    "half_angle": "half angle",
    "included_angle": "included angle",
}
RULE = "F. D. Jones, Turning and Boring (about 1914), rules for figuring tapers"
ENDS = (("tailstock", "tailstock"), ("headstock", "headstock"))
FORMS = (("external", "outside (shank, plug)"), ("internal", "inside (socket, sleeve)"))
IDS = tuple(f"taper.{name}" for name in ("series", "size", "form", "small_end", *MEASURES))


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the taper stage hands on: the cone where it is known, its name and how it lies."""

    cone: Cone | None
    name: str
    form: str | None
    small_end: str | None


def answer(form: Form) -> tuple[Stage, Chosen]:
    """Ask for the taper and show all its measures."""
    measured = any(form.given(f"taper.{name}") for name in MEASURES if name != "length")
    series = form.choice(
        "taper.series",
        "Taper",
        [(each.value, each.label) for each in SERIES] + [(OWN, "My own measures")],
        default=OWN if measured and not form.given("taper.size") else SERIES[0].value,
    )
    standard = None
    cone: Cone | None = None
    waiting = ""
    if series == OWN:
        cone, waiting = _own(form)
    elif series is not None:
        standard, cone = _standard(form, series)
        waiting = "" if cone else "pick a size"
    lies = form.choice("taper.form", "It is", FORMS, default="external")
    small_end = form.choice(
        "taper.small_end",
        "Small end towards",
        ENDS,
        default="tailstock",
        help="As it stands in the lathe while you cut it.",
    )
    name = standard.name if standard else "Own taper"
    if cone is None:
        line = (
            "Something in the entries needs mending."
            if form.wrong
            else f"Not known yet: {waiting or 'pick a taper'}."
        )
        return Stage(ID, TITLE, line, form.fields), Chosen(None, name, lies, small_end)
    drawing = _drawing(cone, form.system, small_end or "tailstock", lies or "external")
    line = f"{name}, {_place(lies)}: half angle {shown_angle(cone.half_angle)[form.system]}"
    return (
        Stage(ID, TITLE, line, form.fields, _figures(cone, standard), drawing=drawing),
        Chosen(cone, name, lies, small_end),
    )


def _place(lies: str | None) -> str:
    return "inside" if lies == "internal" else "outside"


def _standard(form: Form, series: str) -> tuple[Taper | None, Cone | None]:
    """A standard taper, over its own length or the length wanted on this part."""
    size = form.choice("taper.size", "Size", [(each, each) for each in sizes(series)])
    taper = find_taper(series, size) if size else None
    if taper is None:
        return None, None
    usual = taper.data["length"]
    length = form.length(
        "taper.length",
        "Length of taper on this part",
        default=shown_length(usual.value),
        least=0.1,
        most=10000.0,
        help=f"Empty: {usual.text} {usual.unit} as in the table, {usual.note}.",
    )
    if length is None:
        return taper, None
    measures = {
        "rate": taper.data["rate"].value,
        "large_diameter": taper.data["large_diameter"].value,
        "length": length,
    }
    cone = solve(measures)
    if cone.large_diameter and cone.small_diameter is not None and cone.small_diameter <= 0:
        form.refuse(
            "taper.length",
            "At this length the taper would come to a point",
            f"{taper.name} comes to a point {shown_length(cone.large_diameter / cone.rate)[form.system]} from"
            " the gauge plane; stay well short of that.",
        )
        return taper, None
    return taper, cone


def _own(form: Form) -> tuple[Cone | None, str]:
    """A taper from the person's own measures."""
    told: dict[str, float | None] = {
        "large_diameter": form.length("taper.large_diameter", "Large diameter", least=0.01, most=10000.0),
        "small_diameter": form.length("taper.small_diameter", "Small diameter", least=0.01, most=10000.0),
        "length": form.length(
            "taper.length", "Length between them, along the axis", least=0.01, most=10000.0
        ),
        "rate": form.rate(
            "taper.rate",
            "or taper on diameter",
            most=STEEPEST_RATE,
            help="For example 1:20, 0.602 in/ft or 5 %.",
        ),
        "included_angle": form.angle(
            "taper.included_angle", "or included angle", least=0.0, most=math.radians(170.0)
        ),
        "half_angle": form.angle("taper.half_angle", "or half angle", least=0.0, most=math.radians(85.0)),
    }
    if form.wrong:
        return None, ""
    measures = {name: value for name, value in told.items() if value is not None}
    try:
        return solve(measures), ""
    except Unsolved as error:
        return None, f"give {error.needed}"
    except Disagreement as error:
        _name_disagreement(form, error.would_be)
        return None, ""


def _name_disagreement(form: Form, would_be: Mapping[str, float]) -> None:
    """Say beside each measure what it would have to be for the others to stand."""
    for name, value in would_be.items():
        others = " and ".join(MEASURES[other] for other in would_be if other != name)
        wanted = _in_words(name, value)[form.system]
        form.refuse(
            f"taper.{name}",
            f"This does not agree with the {others}",
            f"It would have to be {wanted} for the others to stand; or empty one of them.",
        )


def _in_words(name: str, value: float) -> Mapping[str, str]:
    if name == "rate":
        return shown_rate(value)
    return shown_angle(value) if name.endswith("angle") else shown_length(value)


def _figures(cone: Cone, standard: Taper | None) -> list[Figure]:
    rate_words, half = shown_rate(cone.rate), shown_angle(cone.half_angle)
    source = {name: datum.origin() for name, datum in standard.data.items()} if standard else {}
    figures = [
        Figure(
            "taper.half_angle",
            "Half angle, slide to axis",
            cone.half_angle,
            "rad",
            shown=half,
            source=RULE,
            working=[
                Working(
                    "tan(half angle) = taper on diameter / 2",
                    {system: f"atan({rate_words[system]} / 2) = {half[system]}" for system in ("mm", "inch")},
                    "The slide is set to the half angle; the included angle is twice this.",
                )
            ],
        ),
        Figure(
            "taper.included_angle",
            "Included angle",
            cone.included_angle,
            "rad",
            shown=shown_angle(cone.included_angle),
            source=RULE,
            working=[
                Working(
                    "included angle = 2 × half angle",
                    same(f"2 × {half['mm']} = {shown_angle(cone.included_angle)['mm']}"),
                )
            ],
        ),
        Figure(
            "taper.rate",
            "Taper on diameter",
            cone.rate,
            "1",
            shown=rate_words,
            source=source.get("rate", RULE),
        ),
    ]
    for name, label in (
        ("large_diameter", "Large diameter"),
        ("small_diameter", "Small diameter"),
        ("length", "Length"),
    ):
        value = getattr(cone, name)
        if value is not None:
            figures.append(
                Figure(
                    f"taper.{name}",
                    label,
                    value,
                    "mm",
                    shown=shown_length(value),
                    working=_length_working(name, cone, standard),
                    source=source.get(name, RULE),
                )
            )
    return figures


def _length_working(name: str, cone: Cone, standard: Taper | None) -> list[Working]:
    """How the small end follows from the rest, and what the standard prints for it."""
    if (
        name != "small_diameter"
        or cone.large_diameter is None
        or cone.small_diameter is None
        or cone.length is None
    ):
        return []
    large, length, small = (
        shown_length(each) for each in (cone.large_diameter, cone.length, cone.small_diameter)
    )
    rate = shown_rate(cone.rate)
    note = ""
    if standard and "small_diameter" in standard.data:
        datum = standard.data["small_diameter"]
        note = (
            f"The table prints {datum.text} {datum.unit} at {standard.data['length'].text}"
            f" {standard.data['length'].unit}: {datum.note}."
        )
    return [
        Working(
            "small = large − length × taper",
            {
                system: f"{large[system]} − {length[system]} × {rate[system]} = {small[system]}"
                for system in ("mm", "inch")
            },
            note,
        )
    ]


def _drawing(cone: Cone, system: str, small_end: str, form: str) -> str:
    known = (cone.large_diameter, cone.small_diameter, cone.length)
    sizes = (known[0], known[1], known[2]) if known[0] and known[1] and known[2] else None

    def words(value: float | None) -> str:
        return shown_length(value)[system] if value is not None else ""

    return taper_picture(
        words(cone.large_diameter),
        words(cone.small_diameter),
        words(cone.length),
        shown_rate(cone.rate)[system],
        shown_angle(cone.half_angle)[system],
        small_end,
        form,
        sizes,
    )
