"""How much metal to leave on the taper for proving it: cutting stops there, proving tells it."""

from __future__ import annotations

from calc.doubt.asks import Ask
from calc.gauging.left import metal
from calc.gauging.way import Part
from calc.stages.common.form import Form
from calc.stages.setting.facts import SetUp

LAST_CUT = "proving.last_cut"
ASK_LAST_CUT = Ask(
    LAST_CUT,
    "Least for the last cut, on diameter",
    "length",
    {"mm": "0.1 mm", "inch": "0.004 in"},
    "What a sharp tool still cuts cleanly. Common practice, no source.",
    least=0.005,
    most=5.0,
)


def metal_for(set_up: SetUp | None, form: Form) -> float:
    """Metal to be left on diameter [mm] for a taper set so; 0 where it is not known how far out it may come.

    form: one on which the least last cut may be asked without being shown.
    """
    outcome = set_up.outcome if set_up else None
    last = form.number(ASK_LAST_CUT)
    if set_up is None or outcome is None or last is None:
        return 0.0
    part = Part(set_up.task.cone, set_up.task.form)
    per = part.on_diameter
    return metal(part, outcome.budget.bias / per, outcome.budget.standard / per, last)
