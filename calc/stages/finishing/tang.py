"""The tang: depth of each flat from the diameter now, what to read after the first, the verdict on a slip."""

from __future__ import annotations

from calc.doubt.asks import Ask
from calc.drawings.tang import TangView, tang_picture
from calc.machining.fits import NotListed, zone
from calc.machining.flats import across_flat_and_round
from calc.quantities import shown_length
from calc.sheet import Caution, Step, same
from calc.stages.blank.facts import End
from calc.stages.common.form import Form
from calc.stages.common.sheet_part import SheetPart
from calc.stages.common.shop import CLAMPING, SHARP, between, from_memory, rough
from calc.stages.common.steps import both_systems
from calc.stages.finishing.tang_figures import TangWanted, figures, judged, used
from calc.tables import Datum

GRADE = "h13"
"""The tolerance of a tang's thickness: none above, so much below (ISO 296, from memory; ISO 286)."""
MOST = 500.0  # [mm]
SLIGHT = 1e-9
"""What is left of rounding [mm]."""


def ask_tang(form: Form, end: End) -> TangWanted | None:
    """Ask for the round now and what was measured; None where something is missing or wrong."""
    data = dict(end.shank.data) if end.shank else {}
    told = data.get("tang_thickness")
    thickness = told.value if told else None
    if told is None:
        thickness = form.number(
            Ask(
                "finishing.thickness",
                "Tang, thickness wanted",
                "length",
                least=0.5,
                most=MOST,
                help="No table here tells it: a little less than the slot it goes into.",
            )
        )
    usual = data.get("tang_diameter")
    diameter = form.number(
        Ask(
            "finishing.diameter_now",
            "Round to be milled, diameter now",
            "length",
            shown_length(usual.value) if usual else {},
            least=0.5,
            most=MOST,
            help="As the micrometer reads before the first flat."
            + (" Empty: as the table has it." if usual else ""),
        )
    )
    if usual is not None and not form.given("finishing.diameter_now"):
        diameter = usual.value  # the default is shown rounded in the other system
    across = form.number(
        Ask(
            "finishing.across_now",
            "After the first flat: across it and the round",
            "length",
            least=0.1,
            most=MOST,
            help="Empty until the first flat is cut. Its reading decides the second.",
        )
    )
    now = form.number(
        Ask(
            "finishing.tang_now",
            "Tang, thickness measured",
            "length",
            least=0.1,
            most=MOST,
            help="To be judged against the limits.",
        )
    )
    if form.wrong or thickness is None or diameter is None:
        return None
    if diameter <= thickness:
        form.refuse(
            "finishing.diameter_now",
            "The round is no thicker than the tang",
            f"It must be thicker than {shown_length(thickness)[form.system]}, or there are no flats to mill.",
        )
        return None
    if across is not None and not diameter / 2.0 < across <= diameter:
        form.refuse(
            "finishing.across_now",
            "This does not go with the diameter above",
            f"It must be more than half of it and at most {shown_length(diameter)[form.system]}.",
        )
        return None
    return TangWanted(thickness, thickness + _below(thickness, data), diameter, across, now, data)


def _below(thickness: float, data: dict[str, Datum]) -> float:
    """The lower deviation of the thickness [mm], below nought."""
    if "tang_thickness_below" in data:
        return data["tang_thickness_below"].value
    try:
        return zone(GRADE, thickness).lower / 1000.0
    except NotListed:
        return 0.0


def tang_part(wanted: TangWanted, name: str, system: str) -> SheetPart:
    """Figures, steps, cautions and picture of the tang."""
    limits = between(rough(wanted.least), rough(wanted.thickness))
    part = SheetPart(
        line=f"{_lead(wanted, system)}, tang {limits[system]} thick",
        figures=figures(wanted),
        steps=both_systems(lambda each: _steps(wanted, each)),
        cautions=[CLAMPING, SHARP, *from_memory(used(wanted), name)],
        drawing=_drawing(wanted, system),
    )
    if wanted.now is not None:
        verdict, way_out = judged(wanted, system)
        part.line = f"tang {verdict}"
        if way_out:
            part.cautions.insert(0, Caution("care", way_out))
    return part


def _lead(wanted: TangWanted, system: str) -> str:
    """What is to be milled next: both flats alike, or the second one, the first being measured."""
    second = wanted.second
    if second is None:
        return f"each flat {rough(wanted.depth)[system]} deep"
    said = f"second flat {rough(second.depth)[system]} down"
    if second.first_more > SLIGHT:
        return f"{rough(second.first_more)[system]} more off the first flat, then {said}"
    return said


PARALLEL = (
    "Turn the work half round by the dividing head, or set the first flat upright to a square or flat to a"
    " level, clocked along: only so are the flats parallel."
)


def _steps(wanted: TangWanted, system: str) -> list[Step]:
    depth, data = wanted.depth, wanted.data
    cutter = ""
    if "tang_cutter_radius" in data:
        widest = shown_length(2 * data["tang_cutter_radius"].value)[system]
        cutter = f" with the side of a cutter no larger than {widest}, so that its round makes the run-out"
    length = (
        f" for {shown_length(data['tang_flat_length'].value)[system]}" if "tang_flat_length" in data else ""
    )
    wish = rough(across_flat_and_round(wanted.diameter, depth))[system]
    said = f"Mill the first flat {rough(depth)[system]} down{length}{cutter}; in two or three bites."
    first = [
        _step("touch_round", "Measure the round, touch its top with the cutter and set the dial to 0."),
        _step("first_flat", said, shows=("finishing.flat_depth",)),
        _step(
            "across_first",
            f"Measure across the flat and the round: {wish} is wanted. Enter what you read.",
            asks=("finishing.across_now",),
        ),
    ]
    second = wanted.second
    if second is None:
        alike = f"{PARALLEL} Against the same stop mill the second flat alike."
        return [*first, _step("second_flat", alike)]
    steps = []
    if second.first_more > SLIGHT:
        more = rough(second.first_more)[system]
        steps.append(_step("first_more", f"Take {more} more off the first flat."))
    down = rough(second.depth)
    touched = "Touch the round's top, set the dial to 0 and mill the second flat"
    turned = f"{PARALLEL} {touched} {down[system]} down."
    steps.append(_step("second_flat", turned, shows=("finishing.second_flat",)))
    off = f", {rough(second.off_centre)[system]} off centre" if second.off_centre else ", true to the axis"
    thick = f"The tang is then {rough(second.thickness)[system]} thick{off}."
    steps.append(_step("tang_thick", thick, asks=("finishing.tang_now",)))
    return steps


def _step(word: str, text: str, asks: tuple[str, ...] = (), shows: tuple[str, ...] = ()) -> Step:
    return Step(f"finishing.{word}", "flats", same(text), asks=asks, shows=shows)


def _drawing(wanted: TangWanted, system: str) -> str:
    data = wanted.data
    length = data["tang_flat_length"].value if "tang_flat_length" in data else wanted.diameter
    radius = data["tang_cutter_radius"].value if "tang_cutter_radius" in data else wanted.depth
    words = {
        "diameter": shown_length(wanted.diameter)[system],
        "depth": rough(wanted.second.depth if wanted.second else wanted.depth)[system],
        "thickness": between(rough(wanted.least), rough(wanted.thickness))[system],
        "across": rough(wanted.across or across_flat_and_round(wanted.diameter, wanted.depth))[system],
    }
    if "tang_flat_length" in data:
        words["length"] = shown_length(length)[system]
    if "tang_cutter_radius" in data:
        words["radius"] = shown_length(radius)[system]
    return tang_picture(TangView(wanted.diameter, wanted.thickness, length, radius), words)
