"""One thing to be told: what a way asks beyond the taper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Ask:
    """One thing a way needs told.

    kind: "length" [mm], "angle" [rad], "rate" [plain] or "choice". default: by unit system; {} where it may
    stay empty, and is then absent from the task. least, most: [mm, rad or plain].
    """

    id: str
    label: str
    kind: str
    default: Mapping[str, str]
    help: str = ""
    choices: Sequence[tuple[str, str]] = ()
    least: float = 0.0
    most: float = 0.0
