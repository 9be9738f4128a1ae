"""Where the form stood: for modules that have not moved yet."""

from calc.stages.common.form import (
    LENGTH_UNIT as LENGTH_UNIT,
)
from calc.stages.common.form import (
    LONGEST_ECHO as LONGEST_ECHO,
)
from calc.stages.common.form import (
    Form as Form,
)
from calc.stages.common.form import (
    fault_from as fault_from,
)
