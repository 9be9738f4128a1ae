"""The stages of the job in order: one file each, one line each in `run_stages`."""

from __future__ import annotations

from collections.abc import Sequence

from calc.sheet import Stage
from calc.stages import chart, setting, taper
from calc.stages.form import Form

STAGES_ASK = frozenset(taper.IDS) | frozenset(setting.IDS) | frozenset(chart.IDS)
"""Every entry some stage may ask for."""


def run_stages(
    entries: dict[str, str], drawer: list[object], system: str, add: Sequence[str] = ()
) -> tuple[list[Stage], dict[str, str], list[dict[str, str]]]:
    """All stages, the normalised entries and the normalised drawer; `add` holds keys of sets to put in."""
    forms = taper_form, setting_form, chart_form = [Form(entries, system) for _ in range(3)]
    taper_stage, chosen = taper.answer(taper_form)
    bench, read = setting.ask(setting_form, drawer, add)
    stages = [
        taper_stage,
        setting.answer(setting_form, bench, read, chosen),
        chart.answer(chart_form, bench),
    ]
    normalised = {name: text for form in forms for name, text in form.normalised.items()}
    return stages, normalised, read.normalised
