"""What stands beside the numbers of the ways: signs, words and units, by plain geometry and arithmetic.

A taper per foot is on diameter over twelve inches; nothing else here is a fact of the trade.
"""

from __future__ import annotations

import math

import pytest

from calc.setting import attachment, bar, collars, master, one_dial, plate, set_over
from calc.setting.common import from_above, swing_step, whole_pair
from calc.setting.known import edge_doubt, known_working, side_doubt
from calc.setting.plan import ENDS, SIDES
from door import demo, field
from setting.told import said, task_for, usual_doubts, value, word

MORSE_2 = math.atan(1.0 / 20.020 / 2.0)
EVERY = [(end, side, lies) for end in ENDS for side in SIDES for lies in SIDES]


@pytest.mark.parametrize(("small_end", "cut_side", "lies"), EVERY)
def test_a_larger_roller_over_the_stack_wants_a_lower_one(small_end: str, cut_side: str, lies: str) -> None:
    """Centres at the same two heights as with rollers alike: stack and radius of one, packing and radius of
    the other."""
    heights, pin = {}, ""
    for differ, packing in ((0.0, 0.0), (0.06, 0.0), (0.06, 2.0)):
        told = {"roller_difference": differ, "packing": packing, "bar_side": lies}
        answer = bar.set_up(task_for(bar, MORSE_2, told, small_end=small_end, cut_side=cut_side))
        heights[differ, packing], pin = value(answer, "stack_height"), word(answer, "pin")
        # Radii in the order of the bed: the headstock's roller is the larger by all of the difference.
        radii = {"headstock": 5.0 + differ / 2, "tailstock": 5.0}
        other = "tailstock" if pin == "headstock" else "headstock"
        raised = heights[differ, packing] + radii[pin] - packing - radii[other]
        assert raised == pytest.approx(100.0 * math.sin(MORSE_2), abs=1e-9)
    assert pin in ENDS


@pytest.mark.parametrize("told", [{}, {"roller_difference": 0.06}, {"packing": 2.0}])
def test_the_stack_s_working_ends_in_the_stack_in_both_systems(told: dict[str, float | str]) -> None:
    answer = bar.set_up(task_for(bar, MORSE_2, told))
    (height,) = [each for each in answer.figures if each.id == "setting.stack_height"]
    for system in ("mm", "inch"):
        line = height.working[0].numbers[system]
        told_at_last = line.rpartition("= ")[2]
        assert told_at_last.split()[0].startswith(height.shown[system].split()[0][:6])
        assert line.startswith("H = ") and ("sin" in line)


@pytest.mark.parametrize("lies", SIDES)
@pytest.mark.parametrize("cut_side", SIDES)
def test_a_doubt_is_as_large_whichever_side_it_comes_from(lies: str, cut_side: str) -> None:
    doubts = usual_doubts(bar)
    task = task_for(bar, MORSE_2, {"bar_side": lies}, cut_side=cut_side, doubts=doubts)
    # A rectangle's half-width over the square root of three, over the length it is told for.
    side = doubts["setting.side_give"] / task.lengths["setting.side_length"]
    edge = doubts["setting.edge_give"] / task.lengths["setting.bar_centres"]
    for found, known in ((side_doubt(task, lies), side), (edge_doubt(task, lies), edge)):
        assert found.standard == pytest.approx(known / math.sqrt(3.0), rel=1e-9)
    # Across the slide from where it was it leans the other way.
    other = SIDES[1 - SIDES.index(lies)]
    (one,), (opposite,) = side_doubt(task, lies).parts.values(), side_doubt(task, other).parts.values()
    assert one == pytest.approx(-opposite)


def test_known_errors_stand_in_the_working_and_none_stand_for_none() -> None:
    assert known_working(0.0) == []
    (line,) = known_working(-0.0002)
    assert "known to be out" in line.formula and "half angle −" in line.numbers["mm"]
    # 0.0002 rad is 41 seconds of arc.
    assert "41" in line.numbers["mm"] and "half angle +" in known_working(0.0002)[0].numbers["inch"]


@pytest.mark.parametrize("rate", [1 / 20, 0.602 / 12, 1 / 12, 7 / 24])
def test_a_scale_in_inches_per_foot(rate: float) -> None:
    read = attachment.scale_reads(rate, True)
    for text in read.values():
        assert float(text.split(" in/ft")[0]) == pytest.approx(12.0 * rate, abs=5.1e-5)
    assert float(read["mm"].partition("(1:")[2].rstrip(")")) == pytest.approx(1.0 / rate, abs=5.1e-3)
    assert attachment.scale_reads(math.radians(3.5), False)["inch"] == "3.5°"


@pytest.mark.parametrize(
    ("text", "fine"), [("0", True), ("0.4 mm", True), ("99 mm", True), ("101 mm", False)]
)
def test_a_centre_hole_may_be_shallow(text: str, fine: bool) -> None:
    sheet = demo({"setting.way": "set_over", "setting.work_length": "200 mm", "setting.centre_depth": text})
    assert (field(sheet, "setting.centre_depth")["wrong"] is None) is fine


@pytest.mark.parametrize("small_end", ENDS)
@pytest.mark.parametrize("cut_side", SIDES)
def test_the_set_over_names_one_side_throughout(small_end: str, cut_side: str) -> None:
    task = task_for(set_over, MORSE_2, small_end=small_end, cut_side=cut_side)
    answer = set_over.set_up(task)
    (lead,) = [each for each in answer.figures if each.lead]
    towards = word(answer, "towards")
    assert towards.removeprefix("the ") in lead.label
    sides = {"the operator": "operator", "the far side": "far side"}
    (other,) = set(sides) - {towards}
    assert sides[other] not in lead.label


@pytest.mark.parametrize(
    ("over", "length", "said_so"),
    [(5.5, 5.0, "leave nothing"), (6.0, 5.0, "leave nothing"), (55.5, 50.0, "shorter between centres"),
     (56.5, 50.0, "")],
)  # fmt: skip
def test_ball_centres_that_leave_too_little_between_them(over: float, length: float, said_so: str) -> None:
    """Two balls of 6 mm: their centres stand a ball less apart than is measured over both."""
    told: dict[str, float | str] = {"centres": "ball", "over_balls": over, "ball": 6.0}
    refused = set_over.refusal(task_for(set_over, 0.03, told, length=length))
    assert said_so in refused and bool(refused) is bool(said_so)


@pytest.mark.parametrize("stands", ["plate", "upright"])
def test_the_new_stack_on_the_plate_says_by_which_function_it_was_found(stands: str) -> None:
    half = math.radians(40.0)
    task = task_for(plate, half, {"plate_from": stands, "plate_angle": "half"}, length=20.0, large=90.0)
    by = {"sin": math.sin, "cos": math.cos}
    error = math.radians(0.5)
    found = plate.correct(task, error)
    named = found.figures[0].working[0].formula.split("(")[0].rpartition(" ")[2]
    assert found.number.value == pytest.approx(100.0 * by[named](half - error), abs=1e-6)


@pytest.mark.parametrize("division", [0.002, 0.02])
@pytest.mark.parametrize("other", [0.0, 0.01])
def test_a_division_read_off_a_master(division: float, other: float) -> None:
    """The slide turned until the indicator moves one division more, and what that is on the angle."""
    told = {"division": division, "master_rate": 2.0 * math.tan(MORSE_2 + other)}
    task = task_for(master, MORSE_2, told, doubts={"setting.sweep_give": 0.0})
    answer = master.set_up(task)
    lies, travel = MORSE_2 + other, task.lengths["setting.sweep_length"]

    def angle(read: float) -> float:
        low, high = lies - 0.2, lies + 0.2
        for _ in range(80):
            middle = (low + high) / 2
            # A point run along the slide stands so far off the master's flank, along the plunger.
            moves = (
                travel
                * (math.sin(middle) * math.cos(lies) - math.cos(middle) * math.sin(lies))
                / math.cos(lies)
            )
            low, high = (middle, high) if moves < read else (low, middle)
        return low

    one = angle(value(answer, "dial_whole") + division) - angle(value(answer, "dial_whole"))
    assert answer.division_turns == pytest.approx(one, rel=0.02)


def test_the_step_of_the_cross_slide_for_a_division_of_the_collars() -> None:
    """A difference one division short: tip turned about the pivot, here with nothing across."""
    told: dict[str, float | str] = {"division": 0.01, "pivot_ahead": 60.0, "pivot_across": 0.0}
    task = task_for(collars, MORSE_2, told)
    answer = collars.set_up(task)
    distance, difference = value(answer, "collar_distance"), value(answer, "collar_difference")
    off = math.atan(difference / 2 / distance) - math.atan((difference - 0.01) / 2 / distance)
    assert value(answer, "collar_step") == pytest.approx(60.0 * off, rel=0.01)


def test_what_a_mark_left_by_the_tool_does_to_collars_cut_again() -> None:
    doubts = {"setting.collar_left": 0.02}
    task = task_for(collars, MORSE_2, {"division": 0.01}, doubts=doubts)
    distance = value(collars.set_up(task), "collar_distance")
    found = collars.correct(task, 0.0003)
    assert found.angle is not None
    # The difference of two diameters, over twice what lies between them; a rectangle.
    assert found.angle.standard == pytest.approx(0.02 / math.sqrt(3) / (2 * distance), rel=0.01)


@pytest.mark.parametrize(("half", "words"), [(MORSE_2, "swing it"), (0.0, "along the axis")])
def test_the_slide_is_swung_where_there_is_a_taper(half: float, words: str) -> None:
    task = task_for(one_dial, half)
    text = said([swing_step(task, from_above(task))])
    assert words in text and ("along the axis" in text) is (half == 0.0)


@pytest.mark.parametrize("told", [(50.0, 0.02, 0.01), (10.0, 1.0, 1.0), (40.0, 0.05, 0.02)])
def test_a_reading_that_fills_the_travel_is_not_cut_short(told: tuple[float, float, float]) -> None:
    """Where the whole travel makes a round number of divisions, that number is told."""
    travel, ratio, division = told
    assert whole_pair(travel, ratio, division) == pytest.approx((travel, travel * ratio))
