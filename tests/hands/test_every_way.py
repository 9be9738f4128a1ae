"""Every way's steps carried out from their own words on a lathe whose bodies ride on one another.

Where the indicator is fixed, on what it bears, what is wound and what it must show are read from the
sentences. Set right, the reading is the one that is written; set a little wrong, it changes; and no indicator
is fixed to what it is to measure.
"""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product
from typing import Any

import pytest

from calc.setting import WAYS
from calc.setting.way import Answer
from hands.lathe import Indicator, Lathe, rides_with, wound
from hands.words import MOUNTS, Sentence, bears_on, understood
from setting.told import BY_ID, task_for, value, word

HALF = 0.025
OFF = 0.0005
"""How wrong the angle is set to see whether the reading tells [rad]."""
KNOWN = {"axis_known": 0.03, "side_known": -0.02, "edge_known": 0.015}
SPANS = {"axis_length": 100.0, "side_length": 80.0, "sweep_length": 80.0}
FINE = {"division": 1e-4, "collar_division": 1e-4, "degree_division": 1e-5}
MODES: dict[str, list[dict[str, float | str]]] = {
    "bar": [
        {"bar_side": side, **more} for side in ("operator", "far") for more in ({}, {"packing": 1.5}, KNOWN)
    ],
    "one_dial": [{"plunger": "axis"}, {"plunger": "slide"}, {"plunger": "axis", **KNOWN}],
    "two_dials": [
        {"travel_along": along, **more} for along in ("slide", "axis", "carriage") for more in ({}, KNOWN)
    ],
    "master": [
        {"master_lies": lies, "master_held": held, **more}
        for lies in ("tailstock", "headstock")
        for held in ("centres", "spindle")
        for more in ({}, {"master_rate": 0.046}, KNOWN)
    ],
    "set_over": [
        {"centres": "plain"},
        {"centres": "ball", "over_balls": 205.0, "ball": 5.0},
        {"centres": "plain", **KNOWN},
    ],
    "attachment": [
        {"attachment_by": by, "attachment_scale": scale}
        for by in ("dial", "scale")
        for scale in ("per_foot", "degrees")
    ],
    "graduations": [{"zero": "axis"}, {"zero": "across"}],
    "collars": [{}, {"collar_measured": 2.4}, {"collar_measured": 3.1}],
    "plate": [
        {"plate_angle": lies, "plate_from": stands}
        for lies in ("included", "half")
        for stands in ("plate", "upright")
    ],
}
CASES = [
    (way.ID, mode, small_end, cut_side, form)
    for way in WAYS
    for mode in MODES.get(way.ID, [{}])
    for small_end, cut_side, form in product(
        ("tailstock", "headstock"), ("operator", "far"), ("external", "internal")
    )
]


class Carried:
    """One way in one mode, its sentences, and the lathe as it stands when set right."""

    def __init__(
        self, way: str, mode: dict[str, float | str], small_end: str, cut_side: str, form: str
    ) -> None:
        upright = mode.get("plate_from") == "upright"
        half = (0.6 if mode.get("plate_angle") == "half" else 0.3) if upright else HALF
        told: dict[str, float | str] = {**FINE, **SPANS, **mode}
        self.task = task_for(
            BY_ID[way], half, told, large=80.0, small_end=small_end, cut_side=cut_side, form=form
        )
        self.way, self.half, self.told = BY_ID[way], half, told
        self.refused = self.way.refusal(self.task)
        if self.refused:
            return
        self.answer: Answer = self.way.set_up(self.task)
        self.said = understood(self.way.steps(self.task, self.answer, "a block."))
        self.sense = (1.0 if small_end == "tailstock" else -1.0) * (1.0 if cut_side == "operator" else -1.0)
        self.to_small_end = 1.0 if small_end == "tailstock" else -1.0
        self.axis = 0.5 * self.number("axis_known") / 100.0
        """What the lathe really turns, by the words of the entry."""

    def number(self, name: str, default: float = 0.0) -> float:
        found = self.told.get(name, default)
        assert isinstance(found, float)
        return found

    def lathe(self, off: float = 0.0) -> Lathe:
        """Everything as set right, the top slide or guide bar wrong by `off` [rad]."""
        angle = self.sense * self.half + self.axis + off
        state = Lathe(swivel=angle, axis=self.axis, side=self.number("side_known") / 80.0)
        if self.way.ID == "bar":
            gap = value(self.answer, "stack_height") - self.number("packing")
            side = self.told["bar_side"]
            assert isinstance(side, str)
            under = 1.0 if word(self.answer, "pin") == "tailstock" else -1.0
            face = self.number("edge_known") / 100.0
            state = replace(state, bar_side=side, gap=under * gap, face=face)
        if self.way.ID == "attachment":
            state = replace(state, guide=angle)
        if self.way.ID == "master":
            lies = 1.0 if self.told["master_lies"] == "tailstock" else -1.0
            side = 1.0 if "operator" in word(self.answer, "sweep_side") else -1.0
            state = replace(
                state, lean=lies * side * math.atan(self.number("master_rate", 2.0 * math.tan(HALF)) / 2)
            )
        return state

    def indicators(self, sentence: Sentence, state: Lathe) -> list[Indicator]:
        """The indicator of a sentence, fixed to each of the bodies that it names."""
        what, side = bears_on(sentence.parts["on"])
        body, angle = state.surface(what, side)
        square = sentence.parts["square"]
        towards = (
            1.0 if side == "operator" else -1.0
        )  # a stylus on the operator's side comes out away from him
        if what == "sine bar face":
            towards = 1.0 if state.bar_side == "operator" else -1.0
        direction = {
            "square to the lathe's axis": towards * math.pi / 2 + state.axis,
            "square to the top slide": towards * math.pi / 2 + state.swivel,
            "along the bed": 0.0,
            "along the top slide": state.swivel,
            "along the lathe's axis": state.axis,
        }[square]
        found = [Indicator(mount, what, side, direction) for mount in MOUNTS[sentence.parts["where"]]]
        for each in found:
            assert not rides_with(each.mount, body) or each.mount in ("bed", "carriage", "cross-slide"), (
                f"{self.way.ID}: an indicator fixed to the {each.mount} measures the {body} it carries"
            )
        return found


def carried_out(case: Carried) -> int:
    """Every sentence of an indicator in its turn; how many readings were checked."""
    checked = 0
    first: list[Indicator] = []
    second: list[Indicator] = []
    motion: Sentence | None = None
    for sentence in case.said:
        right, wrong = case.lathe(), case.lathe(OFF)
        if sentence.kind == "fixed":
            if sentence.parts["which"] == "a second":
                second = case.indicators(sentence, _for(case, sentence, right))
            else:
                first = case.indicators(sentence, _for(case, sentence, right))
                second = []
        elif sentence.kind == "along":
            motion = sentence
        elif sentence.kind == "same":
            assert motion is not None
            far = motion.length("far")
            for each in first:
                checked += _same(each, right, wrong, "carriage", far)
        elif sentence.kind in ("run", "carriage", "two", "master"):
            checked += _reads(case, sentence, first, second)
        elif sentence.kind == "straight":
            checked += _straight(case, sentence, first)
        elif sentence.kind == "over":
            checked += _set_over(case, sentence, first)
        elif sentence.kind == "moved":
            for each in first:
                assert abs(each.change(right, wound(right, "cross-slide", 1.0))) == pytest.approx(1.0)
                checked += 1
    return checked


def _for(case: Carried, sentence: Sentence, state: Lathe) -> Lathe:
    """The lathe as it stands when this indicator is used: scales at zero, tailstock in line."""
    if sentence.step == "setting.zero":
        return replace(state, swivel=math.pi / 2 if case.told["zero"] == "across" else 0.0)
    return state


def _same(each: Indicator, right: Lathe, wrong: Lathe, what: str, far: float) -> int:
    assert each.change(right, wound(right, what, far)) == pytest.approx(0.0, abs=1e-7)
    seen = each.change(wrong, wound(wrong, what, far))
    assert abs(seen) > 0.5 * OFF * far, f"fixed to the {each.mount} the reading does not tell"
    return 1


def _reads(case: Carried, sentence: Sentence, first: list[Indicator], second: list[Indicator]) -> int:
    right, wrong = case.lathe(), case.lathe(case.sense * OFF)
    what, far = sentence.parts["what"], sentence.length("far")
    wanted = sentence.length("by") if "by" in sentence.parts else 0.0
    wanted *= -1.0 if sentence.parts.get("way") == "out" else 1.0
    if sentence.kind == "master":
        end = 1.0 if case.told["master_lies"] == "tailstock" else -1.0
    else:
        end = 1.0 if sentence.parts["end"] == "tailstock" else -1.0
    assert first, "nothing is fixed that could be read"
    for each in first:
        seen = []
        for state in (right, wrong):
            go = far
            if sentence.kind in ("two", "carriage"):
                assert second, "a second indicator is read that was never fixed"
                one = abs(second[0].change(state, wound(state, what, end)))
                assert one > 0.5, "the second indicator does not see the travel"
                go = far / one
            seen.append(each.change(state, wound(state, what, end * go)))
        assert seen[0] == pytest.approx(wanted, abs=2e-4), sentence
        assert abs(seen[1] - seen[0]) > 0.5 * OFF * far, (
            f"fixed to the {each.mount} the reading does not tell"
        )
    return len(first)


def _straight(case: Carried, sentence: Sentence, first: list[Indicator]) -> int:
    """The zero of the degree scale, or the tailstock in line."""
    what = sentence.parts["what"]
    for each in first:
        if sentence.step == "setting.zero":
            at = math.pi / 2 if case.told["zero"] == "across" else 0.0
            right, wrong = Lathe(swivel=at), Lathe(swivel=at + OFF)
        else:
            right, wrong = Lathe(), Lathe(over=0.2)
        assert each.change(right, wound(right, what, 60.0)) == pytest.approx(0.0, abs=1e-9)
        assert abs(each.change(wrong, wound(wrong, what, 60.0))) > 0.5 * OFF * 60.0
    return len(first)


def _set_over(case: Carried, sentence: Sentence, first: list[Indicator]) -> int:
    """The reading follows the tailstock's top, and so set the carriage cuts the taper."""
    over = sentence.length("by") * (1.0 if sentence.parts["to"] == "the far side" else -1.0)
    long = 200.0
    for each in first:
        right = Lathe(axis=case.axis)
        assert abs(each.change(right, replace(right, over=over))) == pytest.approx(abs(over), rel=1e-6)
    # The surface leans by the half angle against the axis, the axis by what was set and what it leant before.
    surface = case.axis + math.asin(over / long) + case.sense * case.half
    assert surface == pytest.approx(0.0, abs=2e-6)
    return len(first)


LEAST = {"bar": 3, "one_dial": 1, "two_dials": 1, "master": 1, "set_over": 3, "graduations": 1}
"""Readings that a way must bring before it has been tried at all."""


@pytest.mark.parametrize(("way", "mode", "small_end", "cut_side", "form"), CASES)
def test_carried_out(way: str, mode: dict[str, Any], small_end: str, cut_side: str, form: str) -> None:
    case = Carried(way, mode, small_end, cut_side, form)
    if case.refused:
        assert way == "set_over" and form == "internal"
        return
    least = 1 if way == "attachment" and mode["attachment_by"] == "dial" else LEAST.get(way, 0)
    if way != "plate":
        assert carried_out(case) >= least


@pytest.mark.parametrize("mode", MODES["plate"], ids=str)
def test_on_the_surface_plate(mode: dict[str, float | str]) -> None:
    """The stand slides level over the plate; the sine bar leans by its stack, the taper's top line off it."""
    for off in (0.0, OFF):
        case = Carried("plate", mode, "tailstock", "operator", "external")
        fixed, slid = (each for each in case.said if each.kind in ("fixed", "stand"))
        assert MOUNTS[fixed.parts["where"]] == ("stand",)
        assert (
            bears_on(fixed.parts["on"])[0] == "highest line"
            and fixed.parts["square"] == "square to the surface plate"
        )
        part = value(case.answer, "stack_height") / 100.0
        held = math.acos(part) if mode["plate_from"] == "upright" else math.asin(part)
        line = held + off - case.half * (2.0 if mode["plate_angle"] == "included" else 1.0)
        rises = slid.length("far") * math.tan(line)
        assert (abs(rises) < 1e-9) if not off else abs(rises) > 0.5 * off * 40.0


def test_an_indicator_that_rides_along_shows_nothing() -> None:
    """The model itself: fixed to the carriage, the sine bar's face reads the same at any angle."""
    case = Carried("bar", {"bar_side": "operator"}, "tailstock", "operator", "external")
    state = case.lathe(0.02)
    for mount in ("carriage", "cross-slide", "tool post"):
        each = Indicator(mount, "sine bar face", "operator", math.pi / 2)
        assert each.change(state, wound(state, "carriage", 80.0)) == pytest.approx(0.0, abs=1e-12)


def test_words_not_known_are_refused() -> None:
    step = replace(BY_ID["bar"].steps(*_bar())[0], text={"mm": "Fix the indicator somewhere.", "inch": ""})
    with pytest.raises(AssertionError, match="does not know"):
        understood([step])


def _bar() -> tuple[Any, Answer, str]:
    case = Carried("bar", {"bar_side": "operator"}, "tailstock", "operator", "external")
    return case.task, case.answer, "a block."


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.ID)
@pytest.mark.parametrize("system", ["mm", "inch"])
def test_in_either_system_the_same_steps(way: Any, system: str) -> None:
    """The same steps in the same order, and no sentence in words that only one system's hands could
    follow."""
    for mode in MODES.get(way.ID, [{}]):
        upright = mode.get("plate_from") == "upright"
        half = (0.6 if mode.get("plate_angle") == "half" else 0.3) if upright else HALF
        told = {**SPANS, **mode}
        task = task_for(way, half, told, large=80.0)
        steps = [
            way.steps(replace(task, system=each), way.set_up(task), "a block.") for each in ("mm", system)
        ]
        assert [each.id for each in steps[0]] == [each.id for each in steps[1]]
        assert len(understood(steps[0])) == len(understood(steps[1]))
