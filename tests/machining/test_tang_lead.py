"""The tang's lead follows what was measured, in figure, line, step and picture alike."""

from __future__ import annotations

import re

import pytest

from calc.job import work

MORSE_2 = {"taper.series": "Morse", "taper.size": "2", "finishing.diameter_now": "13.5 mm"}


def finishing(units: str = "mm", **more: str) -> dict:
    entries = {**MORSE_2, **{f"finishing.{name}": text for name, text in more.items()}}
    sheet = work({"format": 1, "units": units, "entries": entries})
    return next(stage for stage in sheet["stages"] if stage["id"] == "finishing")


def leads(stage: dict) -> list[str]:
    """The lead figures of the tang."""
    found = [each["id"].split(".")[1] for each in stage["figures"] if each["lead"]]
    return [each for each in found if each in ("flat_aim", "second_flat", "tang_verdict")]


def steps(stage: dict, system: str = "mm") -> str:
    return " ".join(step["text"][system] for step in stage["steps"])


def test_before_anything_is_measured_both_flats_lead() -> None:
    """13.5 mm down to between 6.08 and 6.3 (ISO 296, h13): 3.6 mm each at least; 3.655 to the middle."""
    stage = finishing()
    assert leads(stage) == ["flat_aim"] and "each flat 3.66 mm deep" in stage["line"].lower()
    values = {each["id"]: each["value"] for each in stage["figures"]}
    assert values["finishing.flat_depth"] == pytest.approx(3.6)
    assert values["finishing.flat_aim"] == pytest.approx(3.655)
    # What is wanted after the first flat is the middle too; what will do leaves the tang inside its limits.
    assert "9.84 mm is wanted, 9.79 to 9.90 mm will do" in steps(stage)
    # What is a limit stands as the standard gives it; what is milled to is said as a collar is read.
    inch = finishing("inch", diameter_now="0.5315 in")
    assert "0.144 in deep" in steps(inch, "inch") and "0.2394 to 0.2480 in" in inch["line"]


@pytest.mark.parametrize("across", ["9.9 mm", "9.85 mm", "9.6 mm"])
def test_after_the_first_flat_the_second_leads_everywhere(across: str) -> None:
    """Both flats alike: the second goes down by what the first did, 13.5 less the reading; never thinner than
    6.3 less 0.22 (h13), so 9.6 leaves 9.6 - 6.08 = 3.52 mm for it."""
    stage = finishing(across_now=across)
    read = float(across.split()[0])
    down = 13.5 - read if 2 * read - 13.5 >= 6.08 else read - 6.08
    assert leads(stage) == ["second_flat"]
    assert f"second flat {down:.2f} mm deep" in stage["line"].lower() and "each flat" not in stage["line"]
    assert f"second flat {down:.2f} mm deep" in steps(stage)
    assert f"{down:.2f} mm" in stage["drawing"]


def test_a_first_flat_that_is_too_shallow_is_said_first() -> None:
    """10.2 leaves 2 x 10.2 - 13.5 = 6.9: (6.9 - 6.19) / 2 = 0.355 more to the middle before the second."""
    stage = finishing(across_now="10.2 mm")
    assert re.match(r"0\.3[56] mm more off the first flat, then second flat 3\.6[56] mm deep", stage["line"])


def test_once_the_tang_is_measured_the_verdict_leads() -> None:
    stage = finishing(across_now="9.9 mm", tang_now="6.2 mm")
    assert leads(stage) == ["tang_verdict"] and stage["line"].lower().startswith("tang inside its limits")


@pytest.mark.parametrize("more", [{}, {"across_now": "9.9 mm"}])
@pytest.mark.parametrize("system", ["mm", "inch"])
def test_the_second_flat_is_kept_parallel_to_the_first(more: dict[str, str], system: str) -> None:
    text = steps(finishing(system, **more), system)
    assert "dividing head" in text and "square" in text and "level" in text and "parallel" in text
    assert (" mm" in text) is (system == "mm") and (" in " in text) is (system == "inch") or system == "mm"
