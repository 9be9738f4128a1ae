"""Engineer's blue: where it rubs, over how much, and what that says of the half angle.

A film of thickness t bridges a gap up to t, square to the surface. A taper whose half angle is out by e bears
at one end and gapes from there by x·|e| at the distance x along the surface, so blue shows over

    share × slant length = t / |e|

from the end that bears: a plug too steep bears at its large end, a socket too steep at its small end. How
thick the film is nobody knows well, so the answer is wide, and it is no bell: the film's logarithm is taken
as normal. Blue at both ends is a hollow taper and blue in the middle a proud one, not a wrong angle.

Source: geometry. Film thickness and the eye's ± are common practice; no source was found.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.doubt.asks import Ask
from calc.gauging.blue_reading import THIN, read_film, read_share
from calc.gauging.way import EXTERNAL, GAUGE, Bell, Part, Row, Seen
from calc.quantities import shown_length
from calc.sheet import Working

ID = "contact"
LABEL = "Contact with engineer's blue"
SOURCE = (
    "A film bridges a gap up to its own thickness: geometry. Thickness of films: common practice, no source"
)
TELLS = (
    "Which end bears and, from how far the blue shows, how far the half angle is out; hollow and proud too."
)
CANNOT = (
    "It says nothing of size, and little of how much once the blue shows all along: then only that the"
    " taper is within the film."
)

FILM_SHARED, FILM_EACH = 0.30, 0.20
"""Spread of the film's logarithm: what one hand and one tin do alike every time, and what each wipe adds."""
FILM_STATED = 0.20
"""The same for a film whose thickness was measured, all in all."""
EYE = 0.085
"""Standard uncertainty of a share: seen by eye to ± 0.1, and told as the nearest of a few. Common practice,
no source.
"""
WHOLE = 0.95
"""A share from here on is blue all along."""
LEAK = 0.003
"""Chance that what was written down has nothing to do with the taper: the wrong end, a wiped mark."""

ENDS = (
    ("large", "at the large end"),
    ("small", "at the small end"),
    ("all", "all along"),
    ("both", "at both ends"),
    ("middle", "in the middle"),
)
SHARES = (
    ("quarter", "a quarter"),
    ("40 %", "40 %"),
    ("half", "half"),
    ("three quarters", "three quarters"),
    ("all", "all"),
)
ASKS: Sequence[Ask] = (
    Ask("end", "Blue shows", "choice", choices=ENDS),
    Ask(
        "share",
        "Over",
        "text",
        {"mm": "half", "inch": "half"},
        "How much of the length, from that end: a quarter, 40 %, half, three quarters, all, or a length.",
        SHARES,
        read=read_share,
    ),
    Ask(
        "film",
        "Film",
        "text",
        {"mm": "thin", "inch": "thin"},
        "Thin: metal shines through, about 0.003 mm (0.0001 in). Thick: about 0.008 mm (0.0003 in). Or its"
        " thickness. Common practice, no source.",
        (("thin", "thin"), ("thick", "thick")),
        read=read_film,
    ),
)


@dataclass(frozen=True, slots=True)
class Blue:
    """The likelihood of blue over `share` from the end that bears when too steep (`side` 1) or too shallow
    (-1).

    side 0: all along, or both ends, so that the sign is not seen. film: its thickness [mm]; slant [mm].
    spread: of the film's logarithm for this one reading; shared: of the part that all readings have in
    common."""

    side: int
    share: float
    film: float
    slant: float
    spread: float
    shared: float
    gauge: float = 0.0

    @property
    def tells(self) -> float:
        """About how finely it can tell [rad]."""
        return self.film / self.slant

    @property
    def reach(self) -> tuple[float, float]:
        """Where the likelihood is worth looking at [rad]."""
        wide = self.film / self.slant * math.exp(3.5 * math.hypot(self.spread, self.shared))
        if self.side == 0:
            return -wide / WHOLE, wide / WHOLE
        # The leak lies everywhere; blue itself speaks of one side, and of next to nothing on the other.
        far, near = wide / max(self.share - 2.0 * EYE, 0.3 * self.share), 0.2 * self.film / self.slant
        return (-near, far) if self.side > 0 else (-far, near)

    def likelihood(self, error: float, film: float = 0.0) -> float:
        """Of what was seen, for this error of the half angle [rad]; see `Bearing`."""
        gap = max(abs(error) * self.slant, 1e-12)
        # How far the film reaches past the gap at the far end, as a logarithm.
        over = math.log(self.film / gap) + self.shared * film
        if self.side == 0:
            return LEAK + (1.0 - LEAK) * _below((over - math.log(WHOLE)) / math.hypot(self.spread, EYE))
        all_along = _below(over / self.spread) * _bell((self.share - 1.0) / EYE) / EYE
        if error * self.side <= 0.0:
            return LEAK + (1.0 - LEAK) * all_along
        # The eye's ± taken of the share's logarithm, so that film and eye multiply to a bell.
        eye = EYE / self.share
        variance = self.spread**2 + eye**2
        away = math.log(self.share) - over
        part = math.exp(-0.5 * away * away / variance) / math.sqrt(2.0 * math.pi * variance) / self.share
        middle = (over * eye**2 + math.log(self.share) * self.spread**2) / variance
        short = _below(-middle / (self.spread * eye / math.sqrt(variance)))
        return LEAK + (1.0 - LEAK) * (part * short + all_along)


def _below(z: float) -> float:
    """Chance that a standard normal lies below z."""
    return 0.5 * math.erfc(-z / math.sqrt(2.0))


def _bell(z: float) -> float:
    return math.exp(-0.5 * z * z) / math.sqrt(2.0 * math.pi)


def missing(row: Row, part: Part) -> tuple[str, str]:
    """What the row still needs."""
    if "end" not in row.choices:
        return "end", "Where does the blue show?"
    if part.cone.rate <= 0.0:
        return "end", "Blue on a parallel part says nothing of an angle."
    return "", ""


def seen(row: Row, part: Part) -> Seen:
    """What the blue says.

    lengths: `share` is a part of the length from 0 to 1, above 1 a length [mm]; `film` its thickness [mm],
    below 0 where it was only said to be about so."""
    end, share = row.choices["end"], row.lengths.get("share", 0.5)
    if share > 1.0:
        share = min(1.0, share / part.slant)
    film, stated = abs(row.lengths.get("film", -THIN)), row.lengths.get("film", -THIN) > 0.0
    shared, each = (0.0, FILM_STATED) if stated else (FILM_SHARED, FILM_EACH)
    if end in ("large", "small") and share >= WHOLE:
        end = "all"
    if end == "middle":
        sag = film / share**2 if share > 0.0 else film
        # The patch lies in the middle to about a tenth of the length; a proud surface rolls by that much.
        angle = Bell(
            0.0, {f"contact {row.number} middle": 0.8 * sag / part.slant, GAUGE: part.gauge_standard}
        )
        return Seen(row, angle, shape="proud", sag=sag, working=_shape_working(film, share))
    side = 0
    if end in ("large", "small"):
        side = 1 if end == part.steep_bears else -1
    blue = Blue(side, min(share, 1.0), film, part.slant, each, shared, part.gauge_standard)
    if end == "both":
        return Seen(row, blue, shape="hollow", sag=film, working=_shape_working(film, None))
    return Seen(row, blue, working=_working(blue, part))


def bearing_length(error: float, film: float, part: Part) -> float:
    """How far blue shows [mm along the surface] from the end that bears; error [rad], film [mm]."""
    return min(part.slant, film / abs(error)) if error else part.slant


def bearing_end(error: float, part: Part) -> str:
    """The end that bears, "large" or "small"; "all" for no error."""
    if not error:
        return "all"
    other = "small" if part.steep_bears == "large" else "large"
    return part.steep_bears if error > 0.0 else other


def _working(blue: Blue, part: Part) -> list[Working]:
    if blue.side == 0:
        angle = blue.film / blue.slant
        formula = "error at most film / slant length"
        numbers = {
            key: f"{shown_length(blue.film)[key]} / {shown_length(blue.slant)[key]} = {_seconds(angle)}"
            for key in ("mm", "inch")
        }
        return [Working(formula, numbers)]
    angle = blue.film / (blue.share * blue.slant)
    word = "too steep" if blue.side > 0 else "too shallow"
    numbers = {
        key: (
            f"{shown_length(blue.film)[key]} / ({100 * blue.share:.0f} % × {shown_length(blue.slant)[key]})"
            f" = {_seconds(angle)} {word}"
        )
        for key in ("mm", "inch")
    }
    bears = (
        "A plug too steep bears at its large end"
        if part.form == EXTERNAL
        else "A socket too steep bears at its small end"
    )
    return [
        Working(
            "error = film / (share × slant length)", numbers, f"{bears}; the film is known to a factor of 2."
        )
    ]


def _shape_working(film: float, share: float | None) -> list[Working]:
    if share is None:
        return [
            Working("hollow by more than the film", shown_length(film), "Both ends bear: no wrong angle.")
        ]
    high = film / share**2
    return [
        Working("proud by film / share²", shown_length(high, high / 3), "The middle bears: no wrong angle.")
    ]


def _seconds(angle: float) -> str:
    return f"{math.degrees(angle) * 3600:.0f}″"


def steps(part: Part) -> Sequence[str]:
    """How to blue a taper."""
    gauge = "the ring gauge or socket" if part.form == EXTERNAL else "the plug gauge"
    own = "the taper" if part.form == EXTERNAL else "the gauge"
    return (
        "Stop the spindle and isolate it. Let the part cool to the gauge's temperature.",
        f"Take off burrs and wipe the taper and {gauge} dry: a chip or a hair of oil"
        " bears before the taper does.",
        f"Draw two or three thin lines of engineer's blue along {own}, a third of a turn apart, and wipe"
        " each out until metal shines through.",
        "Bring the two together straight, press lightly, give about an eighth of a turn"
        " one way, draw apart straight.",
        "Look where the blue has rubbed, from which end and over how much of the length. Wipe off and do it"
        " once more: the second time should show the same.",
    )
