"""Ways of setting the slide: one file each, one line each in the list below."""

from __future__ import annotations

from calc.setting import bar
from calc.setting.way import Way

WAYS: tuple[Way, ...] = (bar,)
