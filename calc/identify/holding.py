"""Does a taper hold itself, or let go? From its half angle and the friction between the flanks.

A plug pressed home stays when the pressing force is taken away where the friction along the flank is more
than what the flank's slope pushes out:

    tan(half angle) < friction coefficient        (half angle below the angle of friction)

Source: machine-design texts on cone joints (force to push apart = N (mu cos a - sin a)). Rigid parts, full
contact, at rest; shaking, oil and heat lower the friction that counts. Friction is a range, so the answer may
be that it depends.

Class comes before friction: the trade calls a machine taper of 16 degrees included and up, 7 in 24 first of
all, steep and self-releasing, and builds it to be drawn in and driven by keys, whatever a dry pair holds.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.tables.friction import Friction, design_range, friction

SELF_HOLDING = "self-holding"
RELEASING = "releasing"
STEEP = "releasing: steep, self-releasing by class"
BETWEEN = "between: depends on oil and finish"
RULE = "Machine-design texts on cone joints: a pressed cone stays where tan(half angle) is below the friction"
STEEPEST = math.radians(89.0)


@dataclass(frozen=True, slots=True)
class Holding:
    """The verdict, with the number that decides it and the range it is held against.

    verdict: `SELF_HOLDING`, `RELEASING`, `STEEP` or `BETWEEN`. tangent: of the half angle [plain], the least
    friction at which it holds. margin: lowest friction of the range over the tangent; above 1 it holds in all
    of it. friction: the range that decides, with its origin. wider: other published ranges, for comparison.
    seats, draws: what seats it and what gets it out again, in shop words.
    """

    verdict: str
    tangent: float
    margin: float
    friction: Friction
    wider: tuple[Friction, ...]
    seats: str
    draws: str


def steep_from() -> float:
    """The half angle [rad] from which a machine taper is called steep and self-releasing."""
    return math.radians(friction("self-releasing taper", quantity="included angle")[0].lowest) / 2.0


def holding(half_angle: float, range_of_friction: Friction | None = None) -> Holding:
    """Whether a taper of this half angle [rad] holds, over a range of friction.

    Without a range its class goes first, and below that the range of oiled ground steel.

    Raises ValueError outside of 0 to 89 degrees (0 itself is a parallel fit, no taper) and for a range that
    is not of a coefficient.
    """
    if not 0.0 < half_angle <= STEEPEST:
        raise ValueError("the half angle must be more than 0 and at most 89 degrees")
    decides = range_of_friction if range_of_friction is not None else design_range()
    if decides.unit != "1" or not 0.0 < decides.lowest <= decides.highest:
        raise ValueError("the range must be of a friction coefficient")
    tangent = math.tan(half_angle)
    if tangent < decides.lowest:
        verdict = SELF_HOLDING
        seats = "Wipe both parts dry and clean and seat it with one firm push or a tap of a soft hammer."
        draws = (
            "It holds by itself against drilling thrust and needs a drift, an ejector or a jacking nut to get"
            " it out. Where the cut pulls or shakes sideways, as in milling, add a drawbar."
        )
    elif tangent > decides.highest or range_of_friction is None and half_angle >= steep_from():
        verdict = RELEASING if tangent > decides.highest else STEEP
        seats = "It only centres: it must be drawn in and kept there, and driven by keys or by the thread."
        draws = "Without a drawbar, nut or axial force it falls out; with the pull off it comes out by hand."
        if verdict == STEEP:
            draws = (
                "Never trust it without its drawbar, however it feels: it is made to let go. Shaken home"
                " dry it may stick all the same: slacken the drawbar a turn or two and knock it loose, a"
                " hand under it."
            )
    else:
        verdict = BETWEEN
        seats = "Reckon with it letting go: draw it in with a drawbar, nut or screws, and drive it by keys."
        draws = (
            "It may stick all the same when dry or shaken home: slacken the drawbar a turn or two and knock"
            " it loose with a soft hammer, a hand under it."
        )
    others = [*friction("steel on steel", "greased"), *friction("steel on steel", "dry")]
    wider = tuple(each for each in others if each != decides)
    return Holding(verdict, tangent, decides.lowest / tangent, decides, wider, seats, draws)
