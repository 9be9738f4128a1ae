"""The stages of the job in order: one file each, one line each in `run_stages`."""

from __future__ import annotations

from calc.sheet import Stage
from calc.stages import setting, taper
from calc.stages.form import Form

STAGES_ASK = frozenset(taper.IDS) | frozenset(setting.IDS)
"""Every entry some stage may ask for."""


def run_stages(
    entries: dict[str, str], drawer: list[object], system: str
) -> tuple[list[Stage], dict[str, str], list[dict[str, str]]]:
    """All stages, the normalised entries and the normalised drawer."""
    taper_form, setting_form = Form(entries, system), Form(entries, system)
    taper_stage, chosen = taper.answer(taper_form)
    setting_stage, pieces = setting.answer(setting_form, chosen, drawer)
    return [taper_stage, setting_stage], {**taper_form.normalised, **setting_form.normalised}, pieces
