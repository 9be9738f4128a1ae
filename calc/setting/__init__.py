"""Ways of setting the slide: one file each, one line each in the list below."""

from types import ModuleType

from calc.setting import bar

WAYS: tuple[ModuleType, ...] = (
    bar,
)
