"""The tang: depth of each flat from the diameter now, what to read after the first, the verdict on a slip."""

from __future__ import annotations

from dataclasses import replace

from calc.doubt.asks import Ask
from calc.drawings.at_bench import across_flat_picture, first_flat_picture, second_flat_picture
from calc.drawings.tang import TangView, tang_picture
from calc.machining.fits import NotListed, zone
from calc.machining.flats import SLIGHT, across_flat_and_round
from calc.quantities import shown_length
from calc.sheet import Both, Caution, Step, same
from calc.stages.blank.facts import End
from calc.stages.common.form import Form
from calc.stages.common.sheet_part import SheetPart
from calc.stages.common.shop import between, fine, from_memory, line, rough
from calc.stages.finishing.tang_figures import TangWanted, figures, judged, used
from calc.tables import Datum

GRADE = "h13"
"""The tolerance of a tang's thickness: none above, so much below (ISO 296, from memory; ISO 286)."""
MOST = 500.0  # [mm]


def ask_tang(form: Form, end: End) -> TangWanted | None:
    """Ask for the diameter now and what was measured; None where something is missing or wrong."""
    data = dict(end.shank.data) if end.shank else {}
    told = data.get("tang_thickness")
    thickness = told.value if told else None
    if told is None:
        thickness = form.number(
            Ask(
                "finishing.thickness",
                "Tang thickness wanted",
                "length",
                least=0.5,
                most=MOST,
                help="No table here gives it: a little less than the slot (tang slot) it goes into.",
            )
        )
    usual = data.get("tang_diameter")
    diameter = form.number(
        Ask(
            "finishing.diameter_now",
            "Diameter to be milled, now",
            "length",
            shown_length(usual.value) if usual else {},
            least=0.5,
            most=MOST,
            help="By micrometer, before the first flat." + (" Empty: as in the table." if usual else ""),
            one_number=True,
            meanwhile=True,
        )
    )
    if usual is not None and (diameter is None or not form.given("finishing.diameter_now")):
        diameter = usual.value  # the default is shown rounded in the other system
    across = form.number(
        Ask(
            "finishing.across_now",
            "After the first flat: flat to opposite side",
            "length",
            least=0.1,
            most=MOST,
            help="Empty until the first flat is milled. The reading decides the depth of the second.",
            meanwhile=True,
        )
    )
    now = form.number(
        Ask(
            "finishing.tang_now",
            "Tang thickness, measured",
            "length",
            least=0.1,
            most=MOST,
            help="It is then held against the limits.",
            meanwhile=True,
        )
    )
    if form.wrong or thickness is None or diameter is None:
        return None
    if diameter <= thickness:
        form.refuse(
            "finishing.diameter_now",
            "This is no thicker than the tang",
            f"It must be more than {shown_length(thickness)[form.system]}, or there are no flats to mill.",
        )
        if usual is None or usual.value <= thickness:
            return None
        diameter = usual.value
    if across is not None and not diameter / 2.0 < across <= diameter:
        form.refuse(
            "finishing.across_now",
            "This does not go with the diameter above",
            f"It must be more than half of it and at most {shown_length(diameter)[form.system]}.",
        )
        across = None
    return TangWanted(thickness, thickness + _below(thickness, data), diameter, across, now, data)


def _below(thickness: float, data: dict[str, Datum]) -> float:
    """The lower deviation of the thickness [mm], below 0."""
    if "tang_thickness_below" in data:
        return data["tang_thickness_below"].value
    try:
        return zone(GRADE, thickness).lower / 1000.0
    except NotListed:
        return 0.0


def tang_part(wanted: TangWanted, name: str, system: str) -> SheetPart:
    """Figures, steps, cautions and picture of the tang."""
    limits = between(fine(wanted.least), fine(wanted.thickness))
    part = SheetPart(
        line=f"{_lead(wanted, system)}, tang {limits[system]} thick",
        figures=figures(wanted),
        steps=_pictured(_steps(wanted), wanted, system),
        cautions=from_memory(used(wanted), name),
        drawing=_drawing(wanted, system),
    )
    if wanted.now is not None:
        verdict, way_out = judged(wanted, system)
        part.line = f"tang {verdict}"
        if way_out:
            part.cautions.insert(0, Caution("care", way_out, id=SLIP))
    return part


def _lead(wanted: TangWanted, system: str) -> str:
    """What is to be milled next: both flats alike, or the second one, the first being measured."""
    second = wanted.second
    if second is None:
        return f"each flat {rough(wanted.depth)[system]} deep"
    said = f"second flat {rough(second.depth)[system]} deep"
    if second.first_more > SLIGHT:
        return f"{rough(second.first_more)[system]} more off the first flat, then {said}"
    return said


SLIP = "tang_slip"
JUDGED = ("finishing.tang_verdict", "finishing.tang_limits")
"""What the step that measures the tang has in sight: what is said of it, and what it is held against."""
PARALLEL = (
    "Rotate the work through 180° by a dividing head, or set the first flat to a square or a level and prove"
    " it"
    " along with an indicator: only so are the flats parallel."
)


def _steps(wanted: TangWanted) -> list[Step]:
    depth, data = wanted.depth, wanted.data
    cutter = length = same("")
    if "tang_cutter_radius" in data:
        widest = rough(2 * data["tang_cutter_radius"].value)
        cutter = line(
            ", with the side of a cutter no larger than {a} in diameter, so that its radius makes the"
            " run-out",
            a=widest,
        )
    if "tang_flat_length" in data:
        length = line(" for {a} from the end", a=rough(data["tang_flat_length"].value))
    wish = fine(across_flat_and_round(wanted.diameter, depth))
    # Both flats at this reading make the tang as thick, or as thin, as it may be.
    ends = between(*(fine((wanted.diameter + each) / 2.0) for each in (wanted.least, wanted.thickness)))
    first = [
        _step(
            "touch_round",
            same(
                "Clamp the work by its turned part and, the cutter stopped, measure the diameter at the end."
                " Then touch it with the turning cutter and zero the collar there."
            ),
            ("milling",),
            ("finishing.diameter_now",),
        ),
        _step(
            "first_flat",
            line(
                "Mill the first flat {a} deep{b}{c}; in two or three cuts.",
                a=rough(depth),
                b=length,
                c=cutter,
            ),
            ("milling",),
            shows=("finishing.flat_aim", "finishing.flat_length", "finishing.cutter"),
        ),
        _step(
            "across_first",
            line(
                "Cutter stopped: measure from the flat to the opposite side: {a} is wanted, {b} will do."
                " Enter the reading.",
                a=wish,
                b=ends,
            ),
            ("milling",),
            ("finishing.across_now",),
            ("finishing.second_flat", "finishing.across_first"),
        ),
    ]
    return [*first, *_second_steps(wanted)]


def _pictured(steps: list[Step], wanted: TangWanted, system: str) -> list[Step]:
    """The steps with a small picture where a flat is milled or measured."""
    share, second = wanted.depth / wanted.diameter, wanted.second
    deep = rough(wanted.depth)[system]
    long = rough(wanted.data["tang_flat_length"].value)[system] if "tang_flat_length" in wanted.data else ""
    pictures = {
        "finishing.first_flat": first_flat_picture(share, deep, long),
        "finishing.across_first": across_flat_picture(
            share, fine(across_flat_and_round(wanted.diameter, wanted.depth))[system]
        ),
        "finishing.second_flat": second_flat_picture(share, rough(second.depth)[system] if second else deep),
    }
    return [replace(step, drawing=pictures.get(step.id, "")) for step in steps]


def _second_steps(wanted: TangWanted) -> list[Step]:
    second = wanted.second
    slip = (SLIP,) if wanted.now is not None and judged(wanted, "mm")[1] else ()
    if second is None:
        alike = same(
            f"{PARALLEL} Against the same stop mill the second flat to the same depth. Measure the tang."
        )
        return [
            _step(
                "second_flat",
                alike,
                ("milling", "sharp", *slip),
                ("finishing.tang_now",),
                JUDGED,
            )
        ]
    steps = []
    if second.first_more > SLIGHT:
        more = line("Take {a} more off the first flat.", a=rough(second.first_more))
        steps.append(_step("first_more", more, ("milling",)))
    turned = line(
        PARALLEL + " Touch the opposite side, zero the collar there and mill the second flat {a} deep.",
        a=rough(second.depth),
    )
    steps.append(_step("second_flat", turned, ("milling", "sharp"), shows=("finishing.second_flat",)))
    thick = line("The tang is then {a} thick, true to the axis. Measure it.", a=rough(second.thickness))
    if second.off_centre:
        thick = line(
            "The tang is then {a} thick, {b} off centre. Measure it.",
            a=rough(second.thickness),
            b=rough(second.off_centre),
        )
    steps.append(_step("tang_thick", thick, slip, ("finishing.tang_now",), JUDGED))
    return steps


def _step(
    word: str,
    text: Both,
    cautions: tuple[str, ...],
    asks: tuple[str, ...] = (),
    shows: tuple[str, ...] = (),
) -> Step:
    return Step(f"finishing.{word}", "flats", text, cautions, asks, shows)


def _drawing(wanted: TangWanted, system: str) -> str:
    data = wanted.data
    length = data["tang_flat_length"].value if "tang_flat_length" in data else wanted.diameter
    radius = data["tang_cutter_radius"].value if "tang_cutter_radius" in data else wanted.depth
    words = {
        "diameter": shown_length(wanted.diameter)[system],
        "depth": rough(wanted.second.depth if wanted.second else wanted.depth)[system],
        "thickness": between(fine(wanted.least), fine(wanted.thickness))[system],
        "across": fine(wanted.across or across_flat_and_round(wanted.diameter, wanted.depth))[system],
    }
    if "tang_flat_length" in data:
        words["length"] = shown_length(length)[system]
    if "tang_cutter_radius" in data:
        words["radius"] = shown_length(radius)[system]
    return tang_picture(TangView(wanted.diameter, wanted.thickness, length, radius), words)
