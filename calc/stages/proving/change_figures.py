"""What to change, as figures: the next stack, a tap of the slide, the way's own numbers."""

from __future__ import annotations

from dataclasses import replace

from calc.doubt.figures import figure
from calc.drawings.stack import stack_picture
from calc.gauging.judge import CHANGE
from calc.quantities import plus_minus_length, plus_minus_micrometres, shown_length, shown_micrometres
from calc.setting.plan import plan_view
from calc.setting.set_over import towards
from calc.sheet import Both, Figure, Working, same
from calc.stages.proving.facts import Anew, Proved, Tap
from calc.stages.proving.said import BAYES, GEOMETRY, SYSTEMS, at, read_off, seconds, sided


def change_figures(proved: Proved, system: str) -> list[Figure]:
    """What to set up anew, and the tap that would do instead."""
    found: list[Figure] = []
    verdict, anew, tap = proved.verdict, proved.anew, proved.tap
    wanted = verdict is None or verdict.decision == CHANGE
    by_tap = tap is not None and verdict is not None and verdict.best.id == "tap"
    if tap is not None and wanted:
        found += _tap(proved, tap, by_tap, system)
    if anew is not None:
        found += _anew(anew, wanted and not by_tap, system)
    return found


def _anew(anew: Anew, wanted: bool, system: str) -> list[Figure]:
    found: list[Figure] = []
    if anew.correction is not None:
        return [replace(each, lead=each.lead and wanted) for each in anew.correction.figures]
    if anew.answer.stack is None:
        return []
    height = anew.answer.stack.height
    high = figure(
        "proving.new_stack_height",
        "New stack height",
        height,
        "mm",
        [
            Working(
                "the height for the angle wanted, less what the set-ups come out by",
                {key: shown_length(height.value, height.expanded)[key] for key in SYSTEMS},
                "What is new at each set-up is not allowed for: it falls anew.",
            )
        ],
        BAYES,
        lead=wanted,
    )
    found.append(high)
    if anew.stack is None:
        return found
    stack = anew.stack
    value = [
        {"name": piece.name, "shape": piece.shape, "size": piece.size_mm, "place": piece.place}
        for piece in stack.pieces
    ]
    swap = swap_words(anew)
    pieces = [
        (piece.name, piece.shape, piece.size_mm, shown_length(piece.size_mm, 0.0001)[system])
        for piece in reversed(stack.building_order())
    ]
    found.append(
        Figure(
            "proving.new_stack",
            "Next stack",
            value,
            shown=same(f"{stack.words()} ({swap})"),
            working=[
                Working("fewest pieces touched of those as good", same(swap), stack.building_words()),
                Working("out on diameter, set so", _sided_budget(anew)),
            ],
            source="The drawer's best stacks, and the stack that stands with one piece changed",
            drawing=stack_picture(
                pieces,
                shown_length(stack.height_mm, 0.0001)[system],
                f"wanted {shown_length(height.value, 0.0001)[system]}",
            ),
        )
    )
    return found


def renewed(proved: Proved) -> bool:
    """Whether setting it up anew by the way's own number is surest, so that no tap is advised."""
    return proved.verdict is not None and proved.verdict.best.id == "anew"


def swap_words(anew: Anew) -> str:
    """Which pieces to take out of the stack that stands, and which to put in."""
    if not anew.touched:
        return "the same pieces: clean them and seat them anew"
    out, put = " and ".join(anew.removed), " and ".join(anew.added)
    if not out:
        return f"put in {put}"
    return f"take out {out}, put in {put}" if put else f"take out {out}"


def _sided_budget(anew: Anew) -> Both:
    bias, spread = anew.budget.bias, anew.budget.expanded
    shown = sided(bias, shown_micrometres(abs(bias), spread))
    return {key: f"{shown[key]} {plus_minus_micrometres(spread)[key]}" for key in SYSTEMS}


def turned(proved: Proved, turn: float) -> str:
    """Which way the slide turns for a change of the half angle [rad], seen from above."""
    if not turn:
        return "none"
    task = proved.task
    swing = plan_view(max(task.cone.half_angle, 1e-6), task.small_end, task.cut_side, "operator", 100.0).swing
    if turn > 0.0:
        return swing
    return {"clockwise": "anticlockwise", "anticlockwise": "clockwise"}[swing]


def tap_words(proved: Proved, tap: Tap) -> str:
    """What is tapped, and which way."""
    if tap.what == "tailstock":
        side = towards(proved.task)
        if tap.turn < 0.0:
            side = "far" if side == "operator" else "operator"
        return f"move the tailstock towards {'you' if side == 'operator' else 'the far side'}"
    what = "top slide" if tap.what == "slide" else "guide bar"
    return f"tap the {what} {turned(proved, tap.turn)}"


PLACES = {
    "slide": "Against the side of the top slide (compound), its plunger square to it.",
    "guide": "Against the guide bar, its plunger square to it.",
    "tailstock": "Against the tailstock's barrel (quill), near the centre, square to the axis.",
}


def _tap(proved: Proved, tap: Tap, lead: bool, system: str) -> list[Figure]:
    way = turned(proved, tap.turn)
    words = tap_words(proved, tap)
    numbers = {
        key: (
            f"{shown_length(tap.at)[key]} × {seconds(abs(tap.turn))} ="
            f" {shown_length(abs(tap.reading), 0.001)[key]}"
        )
        for key in SYSTEMS
    }
    across = "length between centres" if tap.what == "tailstock" else "distance from the pivot"
    where = "" if tap.what == "tailstock" else f", {at(tap.at)[system]} from the pivot,"
    spread = 2.0 * tap.at * tap.standard
    found = [
        Figure(
            "proving.tap",
            f"{words[0].upper()}{words[1:]} until the indicator{where} has moved by",
            abs(tap.reading),
            "mm",
            spread,
            read_off(abs(tap.reading)),
            plus_minus_length(spread),
            [Working(f"{across} × turn", numbers, PLACES[tap.what])],
            GEOMETRY,
            lead,
        )
    ]
    if tap.what != "tailstock":
        from_pivot = {key: at(tap.at)[key] for key in SYSTEMS}
        found.append(
            Figure(
                "proving.tap_from",
                "Indicator for it stands from the pivot",
                tap.at,
                "mm",
                shown=from_pivot,
                working=[Working("as entered, or by default", from_pivot, PLACES[tap.what])],
                source="The further out, the finer it can be turned",
            )
        )
        said = {"anticlockwise": "anticlockwise (counterclockwise)", "none": "not at all"}.get(way, way)
        found.append(
            Figure(
                "proving.turn",
                "Turn it, seen from above",
                way,
                shown=same(said),
                working=[Working("steeper is the way it was swung, shallower is back", same(said))],
                source=GEOMETRY,
            )
        )
    return found
