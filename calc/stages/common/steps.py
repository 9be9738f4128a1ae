"""Steps in both unit systems, from a stage that says them in one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from calc.sheet import Step

SYSTEMS = ("mm", "inch")


def both_systems(steps_in: Callable[[str], Sequence[Step]]) -> list[Step]:
    """The steps with each text in both systems; `steps_in` gives them in one, the same ones in either."""
    metric, inch = (steps_in(system) for system in SYSTEMS)
    return [
        replace(here, text={"mm": here.text["mm"], "inch": there.text["inch"]})
        for here, there in zip(metric, inch, strict=True)
    ]
