"""What the stage of finishing finds."""

from __future__ import annotations

from dataclasses import dataclass

from calc.stages.common.spigot import SpigotWanted
from calc.stages.finishing.tang_figures import TangWanted

ID = "finishing"


@dataclass(frozen=True, slots=True)
class FinishingFacts:
    """What is to be finished, as far as the entries tell: tang, the drawbar's thread by name, spigot."""

    tang: TangWanted | None
    thread: str | None
    spigot: SpigotWanted | None
