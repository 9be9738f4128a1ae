"""Which taper is this, and does it hold itself?

`identify(evidence, tapers)` ranks the standard tapers by what was measured on an old one;
`holding(half_angle)` holds its angle against the friction of steel.
"""

from calc.identify.evidence import Evidence, Measured, StandOff, TwoDiameters
from calc.identify.holding import Holding, holding
from calc.identify.identify import Candidate, Identification, identify
from calc.identify.next_measurement import Next
from calc.identify.words import percent

__all__ = [
    "Candidate",
    "Evidence",
    "Holding",
    "Identification",
    "Measured",
    "Next",
    "StandOff",
    "TwoDiameters",
    "holding",
    "identify",
    "percent",
]
