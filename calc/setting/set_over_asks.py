"""What the set-over of the tailstock asks, feels and does not feel."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from calc.doubt.asks import Ask
from calc.setting.common import DIVISION

ASKS: Sequence[Ask] = (
    Ask(
        "setting.work_length",
        "Work between centres, end to end",
        "length",
        {},
        "The whole piece as it is carried, not the taper alone: faced and centred at both ends. By default"
        " the"
        " blank's, where that is planned.",
        least=10.0,
        most=5000.0,
    ),
    Ask(
        "setting.centres",
        "Centres",
        "choice",
        {"mm": "plain", "inch": "plain"},
        "Ball centres carry askew work in one point; plain ones bear on their edges.",
        choices=(("plain", "plain 60°"), ("ball", "ball")),
    ),
    Ask(
        "setting.centre_depth",
        "Centre holes, depth of the 60° cone",
        "length",
        {"mm": "0 mm", "inch": "0 in"},
        "Plain centres: how deep the 60° cone of each hole goes; they bear at about half of it.",
        least=0.0,
        most=100.0,
    ),
    Ask(
        "setting.over_balls",
        "Over both balls",
        "length",
        {},
        "Ball centres: put a ball in each centre hole and measure over both.",
        least=10.0,
        most=5100.0,
    ),
    Ask(
        "setting.ball",
        "Ball",
        "length",
        {"mm": "6 mm", "inch": "0.25 in"},
        "Ball centres: the balls' diameter.",
        least=1.0,
        most=50.0,
    ),
    Ask(
        "setting.set_over_most",
        "Tailstock goes over by at most",
        "length",
        {},
        "Leave empty if not known.",
        least=0.1,
        most=200.0,
    ),
    replace(DIVISION, default={"mm": "0.01 mm", "inch": "0.0005 in"}),
)
FEELS: Sequence[str] = (
    "setting.dial_give",
    "setting.plunger_give",
    "setting.lengths_give",
    "setting.centre_give",
    "setting.axis_give",
)
IMMUNE = ""
CUTS_BY = "carriage"
RESOLUTION = "setting.dial_give"
SNAGS: Sequence[str] = (
    "Every change of the work's length changes the taper.",
    "Plain centres wear and wander in askew holes; the carrier (dog) rocks.",
    "The tailstock must be brought back in line afterwards, and what is parallel turned in line.",
)
