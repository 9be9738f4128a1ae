"""The measures of a taper as figures, and its drawing."""

from __future__ import annotations

from calc.cone import Cone
from calc.drawings.taper import taper_picture
from calc.quantities import shown_angle, shown_length, shown_micrometres, shown_rate
from calc.sheet import Both, Figure, Working, same
from calc.tables import Taper
from calc.tables.twins import both_standards

RULE = "F. D. Jones, Turning and Boring (about 1914), rules for figuring tapers"


def figures(cone: Cone, standard: Taper | None) -> list[Figure]:
    """Every measure of the cone, each with its working and its source."""
    rate_words, half = shown_rate(cone.rate), shown_angle(cone.half_angle)
    source = {name: datum.origin() for name, datum in standard.data.items()} if standard else {}
    found = [
        Figure(
            "taper.half_angle",
            "Half angle, top slide (compound) to axis",
            cone.half_angle,
            "rad",
            shown=half,
            source=RULE,
            working=[
                Working(
                    "tan(half angle) = taper on diameter / 2",
                    {system: f"atan({rate_words[system]} / 2) = {half[system]}" for system in ("mm", "inch")},
                    "The top slide is set to the half angle; the included angle is twice this.",
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
            _labelled("Taper on diameter (taper per foot)", "rate", standard),
            cone.rate,
            "1",
            shown=rate_words,
            working=_plain_working("rate", cone.rate, rate_words, standard),
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
            found.append(
                Figure(
                    f"taper.{name}",
                    _labelled(label, name, standard),
                    value,
                    "mm",
                    shown=shown_length(value),
                    working=_length_working(name, cone, standard)
                    or _plain_working(name, value, shown_length(value), standard),
                    source=source.get(name, RULE),
                )
            )
    return found + _twins(standard)


def _labelled(label: str, name: str, standard: Taper | None) -> str:
    """The label, saying so where the number is from memory."""
    datum = standard.data.get(name) if standard else None
    return f"{label} (from memory)" if datum and datum.from_memory and name != "small_diameter" else label


def _twins(standard: Taper | None) -> list[Figure]:
    """How the other standards of this taper differ, since a shop meets both."""
    found = []
    for number, twin in enumerate(both_standards(standard.series, standard.size) if standard else ()):
        ours, theirs = twin.taper.data["rate"], twin.other.data["rate"]
        over = shown_length(twin.length)
        apart = shown_micrometres(twin.on_diameter)
        at_fixed = shown_micrometres(twin.at_fixed)
        where = twin.fixed.replace("_", " ")
        line = {
            system: f"{theirs.text} against {ours.text} over {over[system]}: {apart[system]};"
            f" at the {where}: {at_fixed[system]}"
            for system in ("mm", "inch")
        }
        found.append(
            Figure(
                "taper.other_standard" + (f"_{number + 1}" if number else ""),
                f"{twin.other.name}, against this one",
                twin.on_diameter,
                "mm",
                shown=_steeper(apart),
                working=[
                    Working(
                        "(its taper − this taper) × length",
                        line,
                        "Above 0 it is the steeper of the two, and the larger there.",
                    )
                ],
                source=theirs.origin(),
            )
        )
    return found


def _steeper(apart: Both) -> Both:
    """A signed difference over the length in words: "0.1 µm steeper"."""
    return {system: _steeper_by(text) for system, text in apart.items()}


def _steeper_by(text: str) -> str:
    """The same of one text."""
    if text.startswith("+"):
        return f"steeper by {text[1:]} on diameter over the length"
    if text.startswith("-") and text.lstrip("-0. ")[:1].isdigit():
        return f"shallower by {text[1:]} on diameter over the length"
    return "the same over the length, as near as it is shown"


def _plain_working(name: str, value: float, shown: Both, standard: Taper | None) -> list[Working]:
    """A measure that was not computed: as printed in the table, or as it was given."""
    datum = standard.data.get(name) if standard else None
    if datum is not None and abs(datum.value - value) <= 1e-9 * max(1.0, abs(value)):
        line = {system: f"{datum.text} {datum.unit} = {shown[system]}" for system in ("mm", "inch")}
        return [Working("as printed in the table", line, datum.note)]
    return [Working("as entered, or as it follows from the other measures", shown)]


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
    if standard and "small_diameter" in standard.data and "length" in standard.data:
        datum = standard.data["small_diameter"]
        note = (
            f"In the table: {datum.text} {datum.unit} at {standard.data['length'].text}"
            f" {standard.data['length'].unit}: {datum.note or 'as printed'}."
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


def drawing(cone: Cone, system: str, small_end: str, form: str) -> str:
    """The taper with its dimensions in the chosen system."""
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
