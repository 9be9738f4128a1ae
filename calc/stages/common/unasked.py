"""Entries that no stage asks for just now: another way's numbers, a tang's where none is milled.

They stay with the job, and a bare 0.05 among them was typed in the units of its day. So they are given back
with their units like those that are asked, or a switch of units in between would make another number of them.
Only what is read in the person's own units matters here: an angle, a count and a name mean the same in both.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from calc.quantities import Unreadable, read_rate
from calc.stages.common.form import LENGTH_UNIT, RATE_UNIT
from calc.stages.common.read_once import length

RATES = frozenset(("setting.master_rate", "taper.rate", "taper.rate_give"))
LENGTHS = frozenset(
    f"{stage}.{name}"
    for stage, names in {
        "taper": "diameter_give end_diameter large_diameter length length_give part_large_diameter"
        " part_length small_diameter stand_off stand_off_give whole_length",
        "blank": "clean_up facing head_diameter head_length holding rough_allowance",
        "setting": "axis_give axis_known axis_length ball bar_centres bar_give centre_depth centre_give"
        " collar_division collar_give collar_left collar_measured collar_room dial_give dial_height_give"
        " division edge_give edge_known film guide_length lengths_give master_give master_length over_balls"
        " packing packing_give pivot_across pivot_ahead play_give roller_difference roller_give seating"
        " set_over_most side_give side_known side_length sweep_give sweep_length tool_height travel"
        " travel_give true_give work_length",
        "cutting": "boring_bar depth diameter_now feed finish_depth nose_radius overhang slide_division"
        " slide_lead slide_travel stand_off start_diameter",
        "finishing": "across_now diameter_now spigot spigot_now tang_now thickness",
        "proving": "gauge_give last_cut plain_height sine_height tap tap_at",
    }.items()
    for name in names.split()
)
"""Every entry that is a length."""


def spelled_out(entries: Mapping[str, str], system: str, asked: Collection[str]) -> dict[str, str]:
    """Those of the entries that are not among the asked and can be read, with their units; bounds are for
    whoever asks."""
    found: dict[str, str] = {}
    for name, text in entries.items():
        if name in asked or not text.strip():
            continue
        try:
            if name in LENGTHS:
                found[name] = length(text, LENGTH_UNIT[system]).understood
            elif name in RATES:
                found[name] = read_rate(text, RATE_UNIT[system]).understood
        except Unreadable:
            continue
    return found
