"""What to measure next: how much it would tell, by what information is; and what each taper expects of it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calc.estimate import limits
from calc.identify.evidence import Evidence, Measured, TwoDiameters
from calc.identify.hypotheses import known, priors
from calc.identify.identify import identify
from calc.identify.next_measurement import _information, _large_end, _rate, _Spread
from calc.tables import all_tapers, find_taper

MORSE_2 = find_taper("Morse", "2")
assert MORSE_2 is not None


@pytest.mark.parametrize("shares", [(0.5, 0.5), (0.7, 0.2, 0.1), (0.25, 0.25, 0.25, 0.25)])
def test_results_that_never_overlap_tell_all_and_equal_ones_nothing(shares: tuple[float, ...]) -> None:
    """The entropy of the shares (Shannon), and none."""
    entropy = -math.fsum(share * math.log2(share) for share in shares)
    apart = [_Spread(10.0 * place, (0.5,)) for place in range(len(shares))]
    assert _information(shares, apart, 0.0) == pytest.approx(entropy, rel=1e-9)
    alike = [_Spread(3.0, (0.5,)) for _ in shares]
    assert _information(shares, alike, 0.0) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("none", [0.0, 0.2])
def test_what_it_tells_hangs_on_no_unit_and_no_zero(none: float) -> None:
    def told(scale: float, shift: float) -> float:
        spreads = [_Spread(shift + scale * at, (scale * half, scale * 0.1)) for at, half in ((2, 1), (3, 2))]
        return _information((0.5, 0.2, 0.1), [*spreads, None], none)

    assert told(25.4, 0.0) == pytest.approx(told(1.0, 0.0), rel=1e-9)
    assert told(1.0, 300.0) == pytest.approx(told(1.0, 0.0), rel=1e-6)
    # With results one and a half apart no more can be told than all there is to be told.
    assert 0.0 < told(1.0, 0.0) < 1.6


def test_what_a_taper_expects_lies_between_what_it_may_be_and_what_was_seen() -> None:
    """Ends of the spans by hand."""
    each = replace(known(MORSE_2), rate=0.05, spread=0.001, large=17.78, ends=4.0)
    # At the large end 17.78 ± 0.05 x 4, and not below what was measured.
    two = TwoDiameters(Measured(17.70, 0.01), Measured(16.0, 0.01), Measured(34.0, 0.1))
    for evidence, low in ((Evidence(rate=Measured(0.05, 0.001)), 17.58), (Evidence(two), 17.70)):
        span = _large_end(each, evidence)
        assert span is not None
        assert (span.middle - span.parts[0], span.middle + span.parts[0]) == pytest.approx((low, 17.98))
        assert span.parts[1] == pytest.approx(0.1 * 0.05)
    for seen, ends in (
        (None, (0.049, 0.051)),
        (limits(0.0505, 0.001, "rate"), (0.0495, 0.051)),
        (limits(0.0495, 0.001, "rate"), (0.049, 0.0505)),
    ):
        span = _rate(each, seen, (0.00005,))
        assert (span.middle - span.parts[0], span.middle + span.parts[0]) == pytest.approx(ends)
        assert span.parts[1:] == (0.00005,)


def test_every_series_is_alike_likely_at_first_and_all_add_up() -> None:
    hypotheses = [known(each) for each in all_tapers()]
    shares = priors(hypotheses, 0.05)
    assert math.fsum(shares) == pytest.approx(0.95)
    by_series: dict[str, float] = {}
    for each, share in zip(hypotheses, shares, strict=True):
        by_series[each.taper.series] = by_series.get(each.taper.series, 0.0) + share
    assert len({round(share, 12) for share in by_series.values()}) == 1


@pytest.mark.parametrize(("rate", "word"), [(0.0525, "shallower"), (0.0475, "steeper")])
def test_a_rate_that_misses_is_said_with_its_sign(rate: float, word: str) -> None:
    """1:20.020 against it over 100 mm, by arithmetic."""
    found = identify(Evidence(rate=Measured(rate, 0.00001)), [MORSE_2])
    away = abs(100.0 / 20.020 - 100.0 * rate)
    assert f"is {word} by {away:.4f} mm on diameter over 100 mm" in found.words[0]["mm"]


def test_the_answer_reads_as_sure_as_it_is() -> None:
    """Sure, it is one sentence; open, it names who else and how likely, with none of them where it counts."""
    sure = identify(
        Evidence(
            TwoDiameters(Measured(19.05, 0.002), Measured(17.05, 0.002), Measured(40.0, 0.01)),
            end_diameter=Measured(19.05, 0.05),
        ),
        all_tapers(),
    )
    assert sure.candidates[0].probability >= 0.9
    assert sure.words[0]["mm"].startswith("This is Jarno 6 (") and "): " in sure.words[0]["mm"]
    seen_none = set()
    for give in (0.005, 0.02, 0.05, 0.1, 0.2, 0.3):
        two = TwoDiameters(Measured(17.5, give), Measured(15.5, give), Measured(40.0, 0.02))
        found = identify(Evidence(two), all_tapers())
        text = found.words[0]["mm"]
        if text.startswith("Most likely"):
            said_none = "none of these (" in text
            assert said_none is (found.none_of_these >= 0.05), text
            assert ": " in text and f". {found.candidates[0].name}: " in text
            seen_none.add(said_none)
    assert seen_none
