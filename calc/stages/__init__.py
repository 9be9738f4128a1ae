"""The stages of the job in order: one file each, one line each in `run_stages`."""

from __future__ import annotations

from collections.abc import Sequence

from calc.sheet import Stage
from calc.stages import blank, chart, cutting, finishing, setting, taper
from calc.stages.form import Form

STAGES_ASK = frozenset(
    name for stage in (taper, setting, blank, cutting, finishing, chart) for name in stage.IDS
)
"""Every entry some stage may ask for."""


def run_stages(
    entries: dict[str, str], drawer: list[object], system: str, add: Sequence[str] = ()
) -> tuple[list[Stage], dict[str, str], list[dict[str, str]]]:
    """All stages, the normalised entries and the normalised drawer; `add` holds keys of sets to put in."""
    forms = taper_form, setting_form, blank_form, cutting_form, finishing_form, chart_form = [
        Form(entries, system) for _ in range(6)
    ]
    taper_stage, chosen = taper.answer(taper_form)
    bench, read = setting.ask(setting_form, drawer, add)
    end = blank.ask_end(blank_form, chosen)
    wanted = finishing.ask(finishing_form, chosen, end)
    blank_stage, planned = blank.answer(blank_form, chosen, end, wanted.spigot_most)
    stages = [
        taper_stage,
        setting.answer(setting_form, bench, read, chosen),
        blank_stage,
        cutting.answer(
            cutting_form,
            chosen,
            bench.way.ID if bench else "",
            bench.doubts.get("setting.tool_height") if bench else None,
            planned.plan.roughs[0].diameter if planned else None,
        ),
        finishing.answer(finishing_form, chosen, end, wanted),
        chart.answer(chart_form, bench),
    ]
    normalised = {name: text for form in forms for name, text in form.normalised.items()}
    return stages, normalised, read.normalised
