"""What to do to prove the taper and put it right, in the order of doing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from calc.drawings.blue_lines import lines_picture, rubbed_picture
from calc.gauging import contact
from calc.gauging.judge import CHANGE, DONE
from calc.gauging.record import TAPPED
from calc.gauging.way import Part
from calc.hazards import BLUE, STOPPED, WARM
from calc.quantities import shown_length
from calc.sheet import Both, Step, same
from calc.stages.common.taught import SINCE
from calc.stages.cutting.facts import Cutting
from calc.stages.cutting.words import along
from calc.stages.proving.asks import TAP
from calc.stages.proving.change_figures import renewed, swap_words, tap_words
from calc.stages.proving.facts import ID, Proved, ProvingFacts
from calc.stages.proving.rows import BY_ID, KEY
from calc.stages.proving.said import at as place_at
from calc.stages.proving.said import read_off

SYSTEMS = ("mm", "inch")
USUAL = contact.ID
LINES, RUBBED = 3, 5
"""Of the steps of proving by blue, the one that draws its lines and the one that reads them."""


def steps(facts: ProvingFacts, picture: str, cut: Cutting | None) -> list[Step]:
    """Leave metal, prove, put right, prove again; none while there is no taper. cut: how it is cut."""
    part = facts.part
    if part is None or facts.metal_before is None or part.cone.rate <= 0.0:
        return []
    # Once something is seen the figure says what is wanted now; cutting stopped for what was wanted before.
    shows = ("proving.metal",) if facts.metal == facts.metal_before else ()
    found = [_metal(facts.metal_before, cut, shows)]
    ways = facts.rows.ways or [USUAL]
    for way in ways:
        found += _how(way, part)
    found += _then(facts, picture)
    return found


def _step(word: str, text: Both, phase: str = "prove", **more: Any) -> Step:
    return Step(f"{ID}.{word}", phase, text, **more)


def _metal(metal: float, cut: Cutting | None, shows: tuple[str, ...]) -> Step:
    count = cut.proved_after if cut is not None else None
    if cut is not None and cut.to_go is not None:
        # It is cut some way already: what counts is what is on it now.
        words = {
            key: f"Prove it while {_amount(metal)[key]} or more are still on the diameter." for key in SYSTEMS
        }
        return _step("metal", words, "cut", shows=shows, order=90)
    if count is None or cut is None:
        words = {
            key: (
                f"Stop cutting the taper while {_amount(metal)[key]} are still on the diameter: prove it"
                " now, so that any correction still cleans up."
            )
            for key in SYSTEMS
        }
        return _step("metal", words, "cut", shows=shows, order=90)
    left, reach = 2.0 * cut.cuts[count - 1].left, cut.cuts[count - 1].reach
    short = reach < max(each.reach for each in cut.cuts)
    words = {
        key: (
            f"Stop after cut {count} of {len(cut.cuts)}: {_amount(left)[key]} are still on the diameter, and"
            f" {_amount(metal)[key]} are wanted so that any correction still cleans up."
            + (f" The taper is {along(reach)[key]} long so far." if short else "")
            + " Prove the taper now."
        )
        for key in SYSTEMS
    }
    return _step("metal", words, "cut", shows=shows, order=90)


def _amount(mm: float) -> Both:
    return shown_length(mm, 0.02)


def _how(way: str, part: Part) -> list[Step]:
    said = BY_ID[way].steps(part)
    cautions = (STOPPED.id, WARM.id, BLUE.id) if way == contact.ID else (STOPPED.id, WARM.id)
    drawn = {LINES: lines_picture(), RUBBED: rubbed_picture(part.form)} if way == contact.ID else {}
    return [
        _step(
            f"{way}_{place}",
            same(text),
            cautions=cautions if place == 1 else (),
            drawing=drawn.get(place, ""),
        )
        for place, text in enumerate(said, 1)
    ]


def _then(facts: ProvingFacts, picture: str) -> list[Step]:
    proved = facts.proved
    words = "Enter what you saw; a second way, or the same once more, makes it surer."
    if set(facts.rows.ways) - {USUAL}:
        # Picked here, after the steps that tell how: those of this way now stand before it.
        words += " How to measure it so stands in the steps before this one."
    enter = _step(
        "enter",
        same(words),
        asks=(KEY,),
        shows=(*_number(proved), "proving.decision", "proving.angle_error"),
    )
    again = _again({})
    # Between cutting's finishing cuts (10) and its very last one (30).
    before_last = _step(
        "before_last",
        same("Prove once more, as above, before the last cut: only metal that is there can be put right."),
        "finish",
        cautions=(STOPPED.id, WARM.id),
        asks=(KEY,),
        order=20,
    )
    last = _step(
        "last",
        same("Cold and wiped, prove it a last time, for angle and for size by the stand-off."),
        "finish",
        cautions=(STOPPED.id, WARM.id),
        shows=("proving.stand_off_card",),
        order=35,
    )
    keep = _step(
        "keep",
        same("Keep the set-up with what the proof showed: the next part of its kind begins from there."),
        "keep",
    )
    if proved is not None and proved.contradictions:
        words = (
            "What was seen contradicts itself: change nothing for it. Prove again as above, take out the row"
            " that was wrong, and go by what then stands here."
        )
        return [enter, _step("right", same(words), asks=(KEY,)), again, before_last, last, keep]
    if proved is None or proved.believed is None:
        right = _step("right", same("Correct the setting as is then shown here, or leave it alone."))
        return [enter, right, again, before_last, last, keep]
    found = [enter, *_correct(proved, picture)]
    if proved.verdict is None or proved.verdict.decision == CHANGE:
        found.append(_again({SINCE: TAPPED if _tapped(proved) else "", TAP: ""} if proved.record else {}))
    return [*found, before_last, last, keep]


def _again(renews: Mapping[str, str]) -> Step:
    """Cut and prove again; renews: how the setting then stands, where there is a proof to remember."""
    words = "Cut again, just enough to clean up, and prove it again as above."
    if renews:
        words += " What was seen before the correction is remembered and counts on."
    return _step("again", same(words), renews=renews)


def _number(proved: Proved | None) -> tuple[str, ...]:
    """The numbers to go by once it is entered: how far to tap where that is surest, next height and stack.

    None where nothing is to be changed: the next set-up's are no answer to what was seen of this one."""
    if proved is not None and proved.verdict is not None and proved.verdict.decision != CHANGE:
        return ()
    tap = ("proving.tap",) if proved is not None and _by_tap(proved) else ()
    return (*tap, "proving.new_stack_height", "proving.new_stack")


def _correct(proved: Proved, picture: str) -> list[Step]:
    verdict = proved.verdict
    if verdict is not None and verdict.decision == DONE:
        return [_step("right", same("The angle is right: leave the setting alone."))]
    if verdict is not None and verdict.decision != CHANGE:
        words = (
            "Leave the setting alone: it would more likely come out worse. Prove by a second way to be surer."
        )
        return [_step("right", same(words), shows=("proving.chance_now", "proving.chance_changed"))]
    return _change(proved, picture)


def _by_tap(proved: Proved) -> bool:
    return proved.verdict is not None and proved.verdict.best.id == "tap"


def _tapped(proved: Proved) -> bool:
    """Whether the correction is a tap: then the setting still stands, but for it."""
    if proved.anew is not None and proved.anew.stack is not None and not _by_tap(proved):
        return False
    return proved.tap is not None and not renewed(proved)


def _change(proved: Proved, picture: str) -> list[Step]:
    found: list[Step] = []
    anew, tap = proved.anew, proved.tap
    if anew is not None and anew.stack is not None and not _by_tap(proved):
        height = anew.stack.height_mm
        words = {
            key: (
                f"Set it up anew on {shown_length(height, 0.001)[key]}: {anew.stack.words()}"
                f" ({swap_words(anew)}). Wipe every piece."
            )
            for key in SYSTEMS
        }
        found.append(
            _step("right", words, cautions=(STOPPED.id,), shows=("proving.new_stack",), drawing=picture)
        )
    elif tap is not None and _tapped(proved):
        moved = tap_words(proved, tap)
        where = {
            "slide": "the side of the top slide (compound), {at} from its pivot",
            "guide": "the guide bar, {at} from its pivot",
            "tailstock": "the tailstock's barrel (quill), near its centre",
        }[tap.what]
        words = {
            key: (
                f"Set an indicator against {where.format(at=place_at(tap.at)[key])}. Loosen it just"
                f" enough to move; seen from above, {moved}, until the indicator has moved by"
                f" {read_off(abs(tap.reading))[key]}. Tighten: it must still read so."
            )
            for key in SYSTEMS
        }
        found.append(_step("right", words, cautions=(STOPPED.id,), shows=("proving.tap",), drawing=picture))
    elif anew is not None:
        numbers = anew.correction.words if anew.correction else same("Set it up anew.")
        found.append(_step("right", numbers, cautions=(STOPPED.id,), drawing=picture))
    return found
