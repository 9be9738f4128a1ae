"""Ways of proving a taper: one file each, one line each in the list below."""

from __future__ import annotations

from collections.abc import Sequence

from calc.gauging import balls, contact, discs, indicator_run, rocking, rollers, stand_off, two_diameters
from calc.gauging.way import Way

WAYS: Sequence[Way] = (
    contact,
    two_diameters,
    rollers,
    balls,
    stand_off,
    indicator_run,
    rocking,
    discs,
)
