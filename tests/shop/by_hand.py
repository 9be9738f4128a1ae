"""Working by hand: the height worked out, blue, and a tap by feel until the blue shows along most of it.

No measure is kept from job to job. Proving starts when the taper is nearly to size, as it usually does.
"""

from __future__ import annotations

from shop.conewright import MOST_CUTS, Job
from shop.knowing import nearest
from shop.physics import BAR, Shop, Taper

LEFT = 0.1
"""Metal still on when it is first blued [mm on diameter]."""
GUESSED_FILM = 0.005
FEEL = 0.5
"""A tap by feel comes to between half and one and a half of what was meant."""


def make(shop: Shop, taper: Taper) -> Job:
    """One job: blue, tap, cut, until blue shows over three quarters at least."""
    job = Job(left=LEFT)
    wanted = BAR * taper.rate / 2.0 / (1.0 + taper.rate**2 / 4.0) ** 0.5
    places, off = nearest(shop, wanted)
    job.supported = abs(off) * 2.0 * taper.length / BAR <= 0.25 * taper.limit
    slide = shop.set_up(places, taper)
    for _ in range(MOST_CUTS):
        error = slide.cut()
        job.errors.append(error)
        seen = shop.blue(error, taper)
        share = {"quarter": 0.25, "40 %": 0.4, "half": 0.5, "three quarters": 0.75}.get(
            seen.get("share", ""), 1.0
        )
        if share >= 0.75:
            break
        guess = GUESSED_FILM / (share * taper.length) * (1.0 if seen["end"] == "large" else -1.0)
        slide.tap(-guess * shop.chance.uniform(1.0 - FEEL, 1.0 + FEEL), 100.0)
        job.left -= abs(slide.cut() - error) + 0.02
        job.lost = job.lost or job.left < 0.0
    return job
