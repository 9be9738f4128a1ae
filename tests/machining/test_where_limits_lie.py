"""Where the blank, the thread's mouth, bites, fits and starts have their limits: by geometry and by law."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.machining.bites import CLEAR, MOST_BITES, OVERLAP, TravelTooShort, least_travel, plan_bites
from calc.quantities import read_length
from door import field, figure, job, steps

MORSE_3 = {"taper.series": "Morse", "taper.size": "3"}  # 23.825 mm at the gauge plane (ISO 296)


@pytest.mark.parametrize(("head", "thickest"), [("20", 30.0), ("40", 40.0), ("", 30.0)])
def test_the_blank_holds_the_spigot_and_the_head(head: str, thickest: float) -> None:
    """A spigot of 30 h6 is at most 30 mm thick (ISO 286: h hangs below): the thicker of the two counts."""
    told = {**MORSE_3, "finishing.spigot": "30 mm", "finishing.fit": "H7/h6", "blank.head_length": "30 mm"}
    bars = "; ".join(f"{each} mm" for each in range(24, 60))
    sheet = job(told | ({"blank.head_diameter": head} if head else {}) | {"blank.stock": bars})
    clean_up = 1.0  # on diameter, as asked by default
    assert figure(sheet, "blank.diameter")["value"] == thickest + clean_up


def mouths() -> list[tuple[str, float, float, str]]:
    """Threads with major diameter and pitch [mm]: ISO 261 coarse, and Unified (ASME B1.1), from memory."""
    return [
        ("M6", 6.0, 1.0, "1"),
        ("M10", 10.0, 1.5, "2"),
        ("M12", 12.0, 1.75, "3"),
        ("M16", 16.0, 2.0, "4"),
        ("M20", 20.0, 2.5, "5"),
        ("M24", 24.0, 3.0, "6"),
    ]


@pytest.mark.parametrize(("name", "major", "pitch", "size"), mouths(), ids=lambda each: str(each))
def test_the_mouth_clears_the_thread(name: str, major: float, pitch: float, size: str) -> None:
    """The centre must bear outside the thread and leave a face: wider than it, by up to a pitch."""
    sheet = job({"taper.series": "Morse", "taper.size": size, "blank.end": "drawbar"})
    found = figure(sheet, "finishing.thread_name")
    assert found["value"] == name  # ISO 296
    said = [step for stage in ("blank", "finishing") for step in steps(sheet, stage) if "60° to " in step]
    assert said
    for step in said:
        told = re.search(r"60° to ([\d.]+ mm)", step)
        assert told is not None
        mouth = read_length(told.group(1), "mm").value
        assert major + 0.2 * pitch < mouth <= major + pitch


@given(st.floats(0.5, 1500.0))
def test_the_least_travel_is_the_least(flank: float) -> None:
    """Bites of the travel, each overlapping the last, must cover flank and clearances: counted by hand."""
    least = least_travel(flank)
    covered = MOST_BITES * least - (MOST_BITES - 1) * OVERLAP
    beside = least - OVERLAP - 2 * CLEAR  # what a bite cuts anew at the very least
    assert covered >= flank + 2 * CLEAR - 1e-6 and beside >= -1e-9
    # And a hair less would not cover it, or would cut nothing beside its clearances.
    assert min(covered - (flank + 2 * CLEAR), MOST_BITES * beside) == pytest.approx(0.0, abs=1e-6)
    whole = flank + 2 * CLEAR
    assert len(plan_bites(flank, least).spans) <= MOST_BITES
    if least - 1e-3 < whole:
        with pytest.raises(TravelTooShort):
            plan_bites(flank, least - 1e-3)


@pytest.mark.parametrize(
    ("text", "accepted"),
    [
        ("2.9 mm under", True),
        ("3.1 mm under", False),
        ("2.9 mm over", True),
        ("3.1 mm over", False),
        ("0.1 to 3.1 mm under", False),
        ("0 mm under", True),
        ("-0.1 mm under", False),
        ("-1 thou to 1 thou under", False),
    ],
)
def test_how_much_under_or_over_is_still_a_fit(text: str, accepted: bool) -> None:
    """A tenth of the size, here 30 mm, is no fit but another size; nor is less than nought."""
    sheet = job({**MORSE_3, "finishing.spigot": "30 mm", "finishing.fit": text})
    assert (field(sheet, "finishing.fit")["wrong"] is None) is accepted


@pytest.mark.parametrize(
    ("form", "text", "accepted"),
    [
        ("external", "23.82", True),
        ("external", "23.83", True),
        ("external", "23.819", False),
        ("external", "23.8", False),
        ("internal", "19.76", True),
        ("internal", "19.75", True),
        ("internal", "19.77", False),
    ],
)
def test_a_start_read_to_a_hundredth_is_the_taper_s_own(form: str, text: str, accepted: bool) -> None:
    """Morse 3 is 23.825 mm; after 81 mm at 1:19.922 its small end is 19.7591 mm, by hand."""
    sheet = job({**MORSE_3, "taper.length": "81 mm", "taper.form": form, "cutting.start_diameter": text})
    assert (field(sheet, "cutting.start_diameter")["wrong"] is None) is accepted
