"""How evidence is combined, and what identifying assumes of tapers: by laws and by published lengths."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.identify.differences import same_cone
from calc.identify.evidence import Evidence, Measured, TwoDiameters, rate_seen
from calc.identify.hypotheses import Known, known
from calc.identify.identify import identify
from calc.identify.likelihood import likelihood
from calc.job import work
from calc.tables import all_tapers, find_taper

MICROMETRES = st.floats(0.0005, 0.05)


def told(rate: float, apart: float, give: float) -> TwoDiameters:
    return TwoDiameters(Measured(20.0, give), Measured(20.0 - rate * apart, give), Measured(apart, 0.0))


@given(st.floats(0.01, 0.2), st.floats(0.01, 0.2), MICROMETRES, st.floats(1e-5, 1e-2), st.floats(5.0, 80.0))
def test_two_measures_of_a_rate_by_the_inverse_of_their_variance(
    by_diameters: float, by_rate: float, give: float, rate_give: float, apart: float
) -> None:
    """Weighted by 1 / variance, of all weightings the one of least variance (any text on least squares)."""
    seen = rate_seen(Evidence(told(by_diameters, apart, give), Measured(by_rate, rate_give)))
    assert seen is not None
    # Rectangular limits have a variance of give² / 3 (GUM 4.3.7); two diameters bring theirs twice.
    variances = 2 * (give / apart) ** 2 / 3, rate_give**2 / 3
    weights = [1 / each for each in variances]
    best = (weights[0] * by_diameters + weights[1] * by_rate) / sum(weights)
    assert seen.value == pytest.approx(best, rel=1e-9)
    assert seen.standard**2 == pytest.approx(1 / sum(weights), rel=1e-9)


@pytest.mark.parametrize(
    ("rate", "series"),
    # 1:20.020 (ISO 296); 0.5 in/ft (Brown & Sharpe, as any table of its shanks has it).
    [("1:20.020", "Morse"), ("0.5 in/ft", "Brown & Sharpe")],
)
def test_the_sharper_measure_is_believed(rate: str, series: str) -> None:
    """Through the door: a rate known to a millionth settles what coarse diameters leave open between two."""
    entries = {
        "taper.series": "unknown",
        "taper.large_diameter": "17.5",
        "taper.small_diameter": "15.7",
        "taper.length": "40",
        "taper.diameter_give": "0.1",
        "taper.rate": rate,
        "taper.rate_give": "0.0001",
    }
    sheet = work({"format": 1, "units": "mm", "entries": entries})
    assert sheet["problems"] == []
    figures = {each["id"]: each for stage in sheet["stages"] for each in stage["figures"]}
    likeliest = figures["taper.candidates"]["value"][0]
    assert likeliest["series"].removesuffix(" inch") == series and likeliest["probability"] > 0.2


def morse_2() -> Known:
    taper = find_taper("Morse", "2")
    assert taper is not None
    return known(taper)


def share_of_lengths(low: float, high: float) -> float:
    """The chance that a Morse 2's length lies from low to high [mm], summed up over its density."""
    each, end = morse_2(), Measured(17.78, 0.5)
    without = likelihood(each, Evidence(end_diameter=end), None)
    step = 0.05
    total = 0.0
    for place in range(round((high - low) / step)):
        length = Measured(low + (place + 0.5) * step, 0.01)
        total += likelihood(each, Evidence(end_diameter=end, length=length), None) / without * step
    return total


@pytest.mark.parametrize("part", [0.5, 0.7, 0.9, 1.0, 1.15])
def test_lengths_make_one_and_lie_as_told(part: float) -> None:
    """A law of probability; and the assumption as told, drawn: both ends move, a few far, a fifth are cut."""
    length = 64.0  # Morse 2, ISO 296: from the gauge plane to the small end
    assert share_of_lengths(1.0, 120.0) == pytest.approx(1.0, abs=2e-3)
    dice = random.Random(5)
    below = seen = 0
    while seen < 40_000:
        at_large = dice.uniform(-1, 1) * (0.1 if dice.random() < 0.9 else 0.3)
        if abs(at_large) * length / 20.02 > 0.5:
            continue  # the large end was seen to lie within 0.5 mm on diameter
        seen += 1
        kind = dice.random()
        at_small = dice.uniform(-1, 1) * (0.03 if kind < 0.6 else 0.1 if kind < 0.9 else 0.3)
        if dice.random() < 0.2:
            at_small = -dice.uniform(0.0, 0.7)
        below += 1.0 + at_large + at_small < part
    assert share_of_lengths(1.0, part * length) == pytest.approx(below / seen, abs=0.02)


def test_a_stub_is_still_a_morse_4() -> None:
    """A shank cut to half its 102.5 mm is what its large end and its rate, 1:19.254 (ISO 296), say."""
    evidence = Evidence(
        TwoDiameters(Measured(31.0, 0.005), Measured(31.0 - 40.0 / 19.254, 0.005), Measured(40.0, 0.02)),
        end_diameter=Measured(31.267, 0.02),
        length=Measured(51.0, 0.2),
    )
    found = identify(evidence, all_tapers())
    first = found.candidates[0].taper
    assert (first.series.removesuffix(" inch"), first.size) == ("Morse", "4")
    assert found.none_of_these < 0.1


@pytest.mark.parametrize("sign", [-1.0, 1.0])
def test_cones_within_three_micrometres_are_one(sign: float) -> None:
    """A shop's micrometer is good to ± 2 or 3 µm: 2.9 µm over the common length cannot part two cones."""
    one = morse_2()
    assert one.length is not None and one.large is not None
    for apart, same in ((0.0029, True), (0.0031, False)):
        other = replace(one, taper=replace(one.taper), rate=one.rate + sign * apart / one.length)
        assert other.taper is not one.taper
        assert same_cone(one, other) is same is same_cone(other, one)


def test_tapers_that_are_one_cone_and_those_that_are_not() -> None:
    """Morse 2 is the same in ISO 296 and ASME B5.10; Morse 2 and Jarno 5 are 1.9 mm apart in size."""

    def of(series: str, size: str) -> Known:
        taper = find_taper(series, size)
        assert taper is not None
        return known(taper)

    assert same_cone(of("Morse", "2"), of("Morse inch", "2"))
    assert not same_cone(of("Morse", "2"), of("Jarno", "5"))


def test_the_usual_length_is_that_of_the_series_that_print_one() -> None:
    """7/24 has lengths for sizes 30 to 60: what is assumed of sizes and series without one is alike."""
    tapers = all_tapers()
    printed = [
        each.data["length"].value / each.data["large_diameter"].value
        for each in tapers
        if each.series == "7/24" and "length" in each.data and "large_diameter" in each.data
    ]
    assert printed
    usual = math.fsum(printed) / len(printed)
    unprinted = [known(each) for each in tapers if each.series == "3/4 in per foot"]
    assert unprinted
    for each in unprinted:
        assert each.large is not None and each.length == pytest.approx(usual * each.large, rel=0.05)
    for each in (known(taper) for taper in tapers if taper.series == "7/24"):
        # So steep that it would be blunt: never nearer to its point than a tenth of the way more.
        assert each.large is not None and each.length is not None
        assert each.length == pytest.approx(usual * each.large, rel=0.1)
