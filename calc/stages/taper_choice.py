"""Where it stood: for modules that have not moved yet."""

from calc.stages.taper.choice import standard as standard
