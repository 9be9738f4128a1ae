"""What is left to take off, what to leave for proving, and what the lathe has taught, as figures."""

from __future__ import annotations

from calc.doubt.figures import figure
from calc.quantities import plus_minus_angle, shown_angle, shown_length
from calc.sheet import Figure, Working, same
from calc.stages.proving.facts import Proved, ProvingFacts
from calc.stages.proving.said import GEOMETRY, SYSTEMS, seconds, sided, signed
from calc.stages.proving.stand_off_card import stand_off_card


def left_figures(proved: Proved, internal: bool) -> list[Figure]:
    size, part = proved.size, proved.part
    if size is None:
        return []
    cone, sign = part.cone, -1.0 if internal else 1.0
    found: list[Figure] = []
    for name, label, left, nominal in (
        ("proving.large_diameter", "Large diameter, as cut", size.large, cone.large_diameter),
        ("proving.small_diameter", "Small diameter, as cut", size.small, cone.small_diameter),
    ):
        if nominal is not None:
            numbers = {
                key: (
                    f"{shown_length(nominal)[key]} {'−' if internal else '+'}"
                    f" {shown_length(left.value, 0.001)[key]}"
                )
                for key in SYSTEMS
            }
            working = [Working("wanted and what is still to come off", numbers)]
            found.append(figure(name, label, sign * left + nominal, "mm", working, GEOMETRY))
    depth, least = size.most / 2.0, size.least
    found.append(
        figure(
            "proving.depth_to_go",
            "Still to go from where it touches, cross-slide (on radius)",
            depth,
            "mm",
            [
                Working(
                    "diameter still to come off / 2",
                    {key: f"{shown_length(size.most.value, size.most.expanded)[key]} / 2" for key in SYSTEMS},
                    "Where most metal is; a collar that reads diameter shows twice this.",
                )
            ],
            GEOMETRY,
            lead=False,
        )
    )
    found.append(
        figure(
            "proving.left_when_right",
            "Left on diameter once the angle is right and it cleans up",
            least,
            "mm",
            [
                Working(
                    "at the end with least metal",
                    {key: shown_length(least.value, least.expanded)[key] for key in SYSTEMS},
                    "Putting the angle right takes what the error is over the length"
                    " off the other end first.",
                )
            ],
            GEOMETRY,
        )
    )
    if cone.rate > 0.0:
        found.append(stand_off_card(cone, (size.most.value, size.least.value)))
    return found


def standing_figures(facts: ProvingFacts) -> list[Figure]:
    """What holds whether or not anything was seen yet."""
    found: list[Figure] = []
    if facts.metal is not None:
        found.append(
            Figure(
                "proving.metal",
                "Leave for proving, on diameter",
                facts.metal,
                "mm",
                shown=shown_length(facts.metal, 0.02),
                working=[
                    Working(
                        "likely error over the length + what proving is out by + the last cut",
                        shown_length(facts.metal, 0.02),
                        "So that any correction about the gauge plane still cleans up.",
                    )
                ],
                source="Plane geometry; the likely error is the setting's, within two standard uncertainties",
            )
        )
    steady = facts.steady
    if steady is not None:
        count = facts.count
        cuts = "1 proved cut" if count == 1 else f"{count} proved cuts"
        used = "allowed for" if facts.allowed_for else "not allowed for"
        shown = sided(steady.value, shown_angle(abs(steady.value), steady.expanded))
        found.append(
            Figure(
                "proving.learned",
                "Your set-ups come out",
                steady.value,
                "rad",
                steady.expanded,
                {key: f"{shown[key]}, from {cuts}; {used}" for key in SYSTEMS},
                plus_minus_angle(steady.expanded),
                [
                    Working(
                        "steady doubts, from every proved cut",
                        same(f"{signed(steady.value)} ± {seconds(steady.expanded)}"),
                        "Allowed for where it lies to that side at three chances to one; the person can"
                        " leave it out.",
                    )
                ],
                "Square-root Kalman filter over the steady doubts (sine bar, top slide, pieces)",
            )
        )
    return found
