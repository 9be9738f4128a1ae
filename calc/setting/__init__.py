"""Ways of setting the slide: one file each, one line each in the list below."""

from __future__ import annotations

from calc.setting import (
    attachment,
    bar,
    collars,
    graduations,
    master,
    one_dial,
    plate,
    set_over,
    two_dials,
)
from calc.setting.way import Way

WAYS: tuple[Way, ...] = (
    bar,
    one_dial,
    two_dials,
    master,
    set_over,
    attachment,
    collars,
    graduations,
    plate,
)
