"""What counts as right, asked: limits, aim and the film of blue."""

from __future__ import annotations

from fractions import Fraction

from calc.doubt.asks import Ask
from calc.doubt.goal import CUSTOMARY_GRADE, DEAD_ON, LARGE_END, Wanted
from calc.quantities import Reading, Unreadable, read_length
from calc.sheet import same
from calc.stages.common.form import LENGTH_UNIT, Form
from calc.tables.at import grades

RIGHT = "Tolerance and aim"
LARGEST_LIMIT = 1.0
AIMS = (
    (DEAD_ON, "dead on"),
    (LARGE_END, "a hair so that the large end bears first"),
)

AIM = Ask(
    "setting.aim",
    "Aim",
    "choice",
    same(DEAD_ON),
    "Dead on has the best chance of being within the limits. Shanks are often cut a hair steep, so"
    " that the large end bears first and the shank cannot rock (common practice, no source): then the aim"
    " is a quarter of the limits' whole width beside the taper, half-way to the limit. In a socket it is"
    " shallow.",
    choices=AIMS,
)
FILM = Ask(
    "setting.film",
    "Film of engineer's blue",
    "length",
    help="Its thickness: then the chance of contact all along is shown too.",
    least=0.0001,
    most=0.1,
)


def _grade(system: str) -> Ask:
    return Ask(
        "setting.grade",
        "Tolerance of the first cut",
        "text",
        same(CUSTOMARY_GRADE),
        f"A grade of ISO 1947, {grades()[0]} to {grades()[-1]}, laid half to either side; or how far out on"
        " diameter over the taper's length it may be either way, such as 0.01 mm or 0.0004 in. AT7 is the"
        " coarse grade for Morse shanks, AT6 the usual one to order (from memory).",
        read=lambda text: read_limit(text, LENGTH_UNIT[system]),
    )


def ask_goal(form: Form) -> Wanted | None:
    """Limits, aim and film of blue; None where something needs mending."""
    form.group = RIGHT
    limit, aim, film = form.ask(_grade(form.system)), form.pick(AIM), form.ask(FILM)
    form.group = ""
    if limit.reading is None or aim is None or film.wrong:
        return None
    grade = limit.reading.understood
    if grade in grades():
        return Wanted(grade, 0.0, aim, film.value)
    return Wanted("", limit.reading.value, aim, film.value)


def read_limit(text: str, unit: str) -> Reading:
    """A grade ("AT7", its number as value) or a half-width on diameter [mm]; raises Unreadable."""
    known = grades()
    plain = "".join(text.split()).upper()
    if plain in known:
        return Reading(Fraction(plain[2:]), float(plain[2:]), plain)
    if plain.startswith("AT"):
        raise Unreadable(
            text,
            0,
            len(text),
            f"There is no grade {plain[:8]}",
            f"Grades run from {known[0]} to {known[-1]}.",
            (CUSTOMARY_GRADE, "AT6"),
        )
    bare = text.strip().removeprefix("±").removeprefix("+-").removeprefix("+/-")
    reading = read_length(bare, unit)
    if not 0.0 < reading.value <= LARGEST_LIMIT:
        raise Unreadable(
            text,
            0,
            len(text),
            f"{reading.understood} cannot be a limit here",
            "More than nothing and at most 1 mm (0.039 in) on diameter, or a grade such as AT7.",
            (CUSTOMARY_GRADE, "0.01 mm"),
        )
    return reading
