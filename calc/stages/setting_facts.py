"""What the setting stage finds, for the stages after it."""

from __future__ import annotations

from dataclasses import dataclass

from calc.stages.bench import Bench
from calc.stages.pieces import DrawerRead


@dataclass(frozen=True, slots=True)
class SettingFacts:
    """The drawer as read, and the bench, None where something needs mending."""

    drawer: DrawerRead
    bench: Bench | None
