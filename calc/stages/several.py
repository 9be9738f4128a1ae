"""Where it stood: for modules that have not moved yet."""

from calc.stages.common.several import several as several
