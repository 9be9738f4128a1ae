"""Chances where one doubt is left, by exact sums; where advice and warnings set in. All through the door."""

from __future__ import annotations

import math

import pytest

from door import demo, doubts, field, figure, nothing_in_doubt, piece, warnings

HALF_ANGLE = math.atan(1 / 40.04)  # Morse 2, 1:20.020 (ISO 296)
LENGTH, LARGE = 64.0, 17.78  # of its shank, ISO 296
EXACT = nothing_in_doubt()


def exactly(entries: dict[str, str]) -> dict[str, object]:
    """The demonstration job with a piece of the very height, and no doubt but these."""
    told = {**EXACT, **entries}
    height = figure(demo(told), "setting.stack_height")["value"]
    return demo(told, [piece(height)])


def inside(low: float, high: float, centre: float, half: float) -> float:
    """Share of a rectangle between two bounds."""
    return max(0.0, min(high, centre + half) - max(low, centre - half)) / (2 * half)


@pytest.mark.parametrize("form", ["external", "internal"])
@pytest.mark.parametrize("side_give", [0.005, 0.02])
def test_the_large_end_bears_first_as_often_as_the_error_has_its_sign(form: str, side_give: float) -> None:
    """One rectangular doubt: (bias + half-width) / (2 half-widths) of it lies above zero, by counting."""
    sheet = exactly({"setting.aim": "large_end", "taper.form": form, "setting.side_give": f"{side_give} mm"})
    # Over the 80 mm of the slide's side, and over the taper's length on both sides (first order).
    half = 2 * LENGTH * side_give / 80 / math.cos(HALF_ANGLE) ** 2
    bias = figure(sheet, "setting.error_on_diameter")["value"]
    chance = figure(sheet, "setting.chance_large_end")["value"]
    aimed = bias if form == "external" else -bias
    assert aimed == pytest.approx(0.004, rel=0.02)  # a quarter of AT7's zone, ± 8 µm (ISO 1947)
    assert chance == pytest.approx(inside(0.0, 1e3, aimed, half), abs=1e-3)
    assert chance < 0.999


def hollow_of(height: float) -> float:
    """What a tool so far off centre takes off the taper [mm on diameter]: two circles, by Pythagoras."""
    large, small = LARGE / 2, LARGE / 2 - LENGTH / 40.04
    out = math.sqrt(large**2 - height**2)
    return 2 * (large - math.hypot(out - (large - small), height)) - 2 * (large - small)


@pytest.mark.parametrize("limit", [0.00004, 0.0001, 0.00017, 0.001, 0.005, 0.02, 0.05, 0.09])
def test_the_height_of_the_tool_alone(limit: float) -> None:
    """A tool anywhere within ± 2 mm: the share of heights that leave the taper inside, by counting."""
    sheet = exactly({"setting.tool_height": "2 mm", "setting.grade": f"{limit} mm"})
    heights = [2.0 * (place + 0.5) / 8000 for place in range(8000)]
    share = sum(abs(hollow_of(height)) <= limit for height in heights) / len(heights)
    # Its strips follow a square root with straight lines: near centre height one per cent may be lost.
    assert figure(sheet, "setting.chance")["value"] == pytest.approx(share, abs=0.0125)


@pytest.mark.parametrize("side_give", [0.0005, 0.0015, 0.004, 0.008])
@pytest.mark.parametrize("limit", [0.001, 0.002, 0.003, 0.004, 0.006])
def test_the_height_of_the_tool_beside_another_doubt(side_give: float, limit: float) -> None:
    """A rectangle and a hollow that is never above zero: their sum, counted over a thousand heights."""
    sheet = exactly(
        {
            "setting.tool_height": "0.4 mm",
            "setting.side_give": f"{side_give} mm",
            "setting.grade": f"{limit} mm",
        }
    )
    half = 2 * LENGTH * side_give / 80 / math.cos(HALF_ANGLE) ** 2
    heights = [0.4 * (place + 0.5) / 1000 for place in range(1000)]
    share = math.fsum(inside(-limit, limit, hollow_of(height), half) for height in heights) / len(heights)
    assert figure(sheet, "setting.chance")["value"] == pytest.approx(share, abs=1.5e-3)


@pytest.mark.parametrize("size", ["2", "0"])
def test_an_indicator_off_centre_height_on_a_master(size: str) -> None:
    """Two circles cut at a height: the flank seen there is steeper; the mean of all heights, by summing."""
    large, rate, length = {"2": (17.78, 1 / 20.02, 64.0), "0": (9.045, 1 / 19.212, 50.0)}[size]  # ISO 296
    big, thin = large / 2, (large - rate * length) / 2
    half_width = min(5.0, 0.85 * thin)
    told = {**nothing_in_doubt("master"), "taper.size": size, "taper.length": f"{length} mm"}
    sheet = demo({**told, "setting.dial_height_give": f"{half_width:.6f} mm"})
    found = figure(sheet, "setting.error_on_diameter")

    def astray(height: float) -> float:
        seen = math.sqrt(big**2 - height**2) - math.sqrt(thin**2 - height**2)
        return 2 * (seen - (big - thin))

    errors = [astray(half_width * (place + 0.5) / 2000) for place in range(2000)]
    mean = math.fsum(errors) / len(errors)
    spread = math.sqrt(math.fsum((each - mean) ** 2 for each in errors) / len(errors))
    assert found["value"] == pytest.approx(mean, rel=0.02)
    assert found["plus_minus"] == pytest.approx(2 * spread, rel=0.03)
    # An indicator that may miss a thin end altogether is still answered, and no better than this.
    beyond = figure(demo({**told, "setting.dial_height_give": "5 mm"}), "setting.error_on_diameter")
    assert found["value"] <= beyond["value"] * (1 + 1e-9) < 1.0


UNHELPED = ("setting.seating", "setting.packing_give", "setting.roller_give", "setting.master_give")
"""Not felt by this job, or nothing ordinary makes it smaller."""
ONE_IN_DOUBT = [
    (way, name)
    for way in ("bar", "one_dial", "two_dials", "set_over", "attachment", "collars", "plate")
    for name in doubts(demo({"setting.way": way}))
    if name not in UNHELPED
]


@pytest.mark.parametrize(("way", "name"), ONE_IN_DOUBT, ids=[f"{way} {name}" for way, name in ONE_IN_DOUBT])
def test_the_only_doubt_is_the_one_to_be_made_smaller(way: str, name: str) -> None:
    """Where one thing alone is badly known, the first advice is a sentence about it, and it helps."""
    told = nothing_in_doubt(way)
    kind = field(demo(told), name)["kind"]
    badly = {"length": "0.5 mm", "angle": "5°", "count": "100", "rate": "0.01"}[kind]
    sheet = demo({**told, name: badly, "setting.grade": "0.02 mm"})
    if figure(sheet, "setting.chance")["value"] > 0.9:
        return  # this way hardly feels it
    advice = figure(sheet, "setting.advice")
    assert advice is not None, "nothing is advised"
    first = advice["value"][0]
    assert len(first["change"].split()) >= 3 and first["to"] > first["from"] + 0.01


def test_a_sweep_badly_read_asks_for_a_better_indicator() -> None:
    sheet = demo({**EXACT, "setting.sweep_give": "0.05 mm"})
    assert "indicator" in figure(sheet, "setting.advice")["value"][0]["change"]


@pytest.mark.parametrize(("divisions", "warned"), [(19.5, True), (20.0, False), (21.0, False)])
def test_collars_whose_difference_is_small(divisions: float, warned: bool) -> None:
    """Below twenty divisions one division is a twentieth of the answer: common practice, no source."""
    told = {"setting.way": "collars", "setting.collar_room": "20 mm"}
    difference = figure(demo(told), "setting.collar_difference")["value"]
    sheet = demo({**told, "setting.division": f"{difference / divisions:.9f} mm"})
    assert ("more room" in warnings(sheet, "setting")) is warned


@pytest.mark.parametrize(("share", "warned"), [(0.0198, False), (0.0202, True)])
def test_setting_over_by_more_than_a_fiftieth(share: float, warned: bool) -> None:
    """The set-over is the length times the sine: the angle whose sine is a fiftieth divides the two."""
    half = math.degrees(math.asin(share))
    sheet = demo(
        {
            "taper.series": "own",
            "taper.size": "",
            "taper.half_angle": f"{half:.6f}",
            "setting.way": "set_over",
            "setting.work_length": "150 mm",
        }
    )
    assert figure(sheet, "setting.set_over")["value"] > 0.0
    assert ("a fiftieth" in warnings(sheet, "setting")) is warned


LIMIT = 0.008
PER_HEIGHT = 2 * LENGTH / 100 / math.cos(HALF_ANGLE) ** 3
"""A stack's millimetre on diameter, with a 100 mm bar: 2 L / (C cos³ a), by differentiating C sin a."""


@pytest.mark.parametrize(("chance", "chosen"), [(0.9985, "nearest"), (0.994, "surest"), (0.98, "surest")])
def test_chances_within_half_a_percent_are_alike(chance: float, chosen: str) -> None:
    """Of two stacks that are alike the nearer sum is taken; else the surer. One piece is known badly."""
    told = {**EXACT, "setting.grade": f"{LIMIT} mm"}
    height = figure(demo(told), "setting.stack_height")["value"]
    # A rectangle of this half-width has this share of it within the limit.
    give = LIMIT / chance / PER_HEIGHT
    drawer = [piece(height, f"{give:.9f} mm", "nearest"), piece(height + 0.001, "0", "surest")]
    stack = figure(demo(told, drawer), "setting.stack")["value"]
    assert [each["name"] for each in stack] == [chosen]


@pytest.mark.parametrize(("share", "told"), [(0.23, False), (0.27, True)])
def test_a_better_piece_is_worth_a_word_from_a_quarter_of_the_limit(share: float, told: bool) -> None:
    """The only piece leaves this share of the limit on diameter, which is below or above a quarter of it."""
    entries = {**EXACT, "setting.grade": f"{LIMIT} mm"}
    height = figure(demo(entries), "setting.stack_height")["value"]
    sheet = demo(entries, [piece(height + share * LIMIT / PER_HEIGHT)])
    assert figure(sheet, "setting.error_on_diameter")["value"] == pytest.approx(share * LIMIT, rel=0.01)
    assert ("would do it alone" in warnings(sheet, "setting")) is told
