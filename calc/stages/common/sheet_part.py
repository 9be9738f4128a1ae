"""What one part of a stage adds to the whole."""

from __future__ import annotations

from dataclasses import dataclass, field

from calc.sheet import Caution, Figure, Step


@dataclass(slots=True)
class SheetPart:
    """Line, figures, steps, cautions and drawing of one part; the stage puts the parts together."""

    line: str = ""
    figures: list[Figure] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    cautions: list[Caution] = field(default_factory=list)
    drawing: str = ""
