"""One thing to be told: what a way asks beyond the taper, and what a stage asks."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from calc.quantities import Reading


@dataclass(frozen=True, slots=True)
class Ask:
    """One thing a way, or a stage, needs told.

    kind: "length" [mm], "angle" [rad], "rate" [plain], "count" (of `unit`), "choice", or "text" that `read`
    makes something of, or that is only kept. default: by unit system; {} where it may stay empty, and is
    then absent from the task. least, most: [mm, rad, plain or `unit`], both allowed; None where
    there is no bound. A text has none. one_number: the default is one number, shown rounded in both
    systems; who asks reckons with the number itself where nothing is typed. meanwhile: measured while the
    work goes on; as long as it reads wrong the rest stands as if it were empty, so that no step goes while
    its own answer is being typed.
    """

    id: str
    label: str
    kind: str
    default: Mapping[str, str] = field(default_factory=dict)
    help: str = ""
    choices: Sequence[tuple[str, str]] = ()
    least: float | None = 0.0
    most: float | None = None
    unit: str = ""
    read: Callable[[str], Reading] | None = None
    one_number: bool = False
    meanwhile: bool = False
