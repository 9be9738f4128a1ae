"""A bore by two balls of different size, or by one: how deep each lies, from the face to the top of the ball.

    sin a = (R − r) / (z small − z large),   z = depth to the top + the ball's radius
    diameter at the face = 2 (R / cos a + z tan a)

The depth is below 0 for a ball that stands proud of the face. The face is taken as the socket's large end.

Source: public examination papers (two-ball ring gauge), metrology notes; checked against spheres in a cone.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.doubt.asks import Ask
from calc.estimate import Estimate, asin
from calc.gauging.way import EXTERNAL, Bell, Part, Row, Seen
from calc.quantities import shown_length
from calc.sheet import Working

ID = "balls"
LABEL = "A bore by balls, by depth"
SOURCE = (
    "Public examination papers and metrology notes: sin(half angle) = (R − r) / (distance of the centres)"
)
TELLS = "Two balls give the half angle and the diameter at the face; one ball gives the diameter alone."
CANNOT = "It cannot see a hollow or proud middle; a chip under a ball, or a ball that wedges, reads high."
BALL_GIVE = 0.001
"""Half-width of a ball's diameter [mm]. Common practice, no source."""
ASKS: Sequence[Ask] = (
    Ask("ball_1", "First ball's diameter", "length", least=0.5, most=200.0),
    Ask(
        "depth_1",
        "Face to the top of the first ball",
        "length",
        help="Below 0 where the ball stands proud of the face.",
        least=-200.0,
    ),
    Ask("ball_2", "Second ball's diameter", "length", least=0.5, most=200.0),
    Ask("depth_2", "Face to the top of the second ball", "length", least=-200.0),
    Ask(
        "give",
        "Each reading good to ±",
        "length",
        {"mm": "0.01 mm", "inch": "0.0004 in"},
        "A depth micrometer. Common practice, no source.",
        most=1.0,
    ),
)


def half_angle(ball_1: float, ball_2: float, depth_1: float, depth_2: float) -> float:
    """Half angle [rad] from two balls' diameters and the depths to their tops [mm].

    Raises ValueError where no cone narrowing downwards holds them so.
    """
    away = (depth_2 + 0.5 * ball_2) - (depth_1 + 0.5 * ball_1)
    radii = 0.5 * (ball_1 - ball_2)
    if away == 0.0 or not 0.0 <= radii / away < 1.0:
        raise ValueError("the smaller ball lies deeper, by more than the radii differ")
    return math.asin(radii / away)


def at_face(ball: float, depth: float, half_angle: float) -> float:
    """Diameter at the face [mm] from one ball's diameter and depth [mm] and the half angle [rad]."""
    r = 0.5 * ball
    return 2.0 * (r / math.cos(half_angle) + (depth + r) * math.tan(half_angle))


def depth(ball: float, diameter_at_face: float, half_angle: float) -> float:
    """Depth from the face to the top of a ball [mm] in a socket; below 0 where it stands proud."""
    r = 0.5 * ball
    return (0.5 * diameter_at_face - r / math.cos(half_angle)) / math.tan(half_angle) - r


def missing(row: Row, part: Part) -> tuple[str, str]:
    """What the row still needs."""
    if part.form == EXTERNAL:
        return "ball_1", "Balls go into a bore. A shank is measured over rollers."
    if not row.has("ball_1", "depth_1"):
        return (
            "depth_1" if row.has("ball_1") else "ball_1"
        ), "The first ball's diameter and its depth are needed."
    if row.has("ball_2") != row.has("depth_2"):
        return (
            "depth_2" if row.has("ball_2") else "ball_2"
        ), "The second ball needs its diameter and its depth."
    if row.has("ball_2", "depth_2"):
        b, d = row.lengths, row.lengths
        try:
            half_angle(b["ball_1"], b["ball_2"], d["depth_1"], d["depth_2"])
        except ValueError:
            return "depth_2", "The smaller ball must lie deeper than the larger one: look at the depths."
    return "", ""


def seen(row: Row, part: Part) -> Seen:
    """What the balls say."""
    first_ball, first_depth = row.reading("ball_1", BALL_GIVE), row.reading("depth_1")
    if not row.has("ball_2", "depth_2"):
        return Seen(row, None, _size(first_ball, first_depth, part.cone.half_angle, part))
    second_ball, second_depth = row.reading("ball_2", BALL_GIVE), row.reading("depth_2")
    away = (second_depth + second_ball / 2.0) - (first_depth + first_ball / 2.0)
    radii = (first_ball - second_ball) / 2.0
    half = asin(radii / away)
    numbers = {
        key: f"({shown_length(radii.value)[key]}) / ({shown_length(away.value)[key]})"
        for key in ("mm", "inch")
    }
    working = [
        Working(
            "sin(half angle) = difference of radii / distance of the centres",
            numbers,
            "Centres: depth + radius.",
        )
    ]
    size = _size(first_ball, first_depth, half.value, part)
    return Seen(row, Bell.of(half, part), size, working=working)


def _size(ball: Estimate, depth: Estimate, half: float, part: Part) -> Estimate | None:
    """How far the diameter at the face is above the cone's own [mm]."""
    if part.cone.large_diameter is None:
        return None
    r = ball / 2.0
    return 2.0 * (r / math.cos(half) + (depth + r) * math.tan(half)) - part.cone.large_diameter


def target(part: Part, ball: float) -> float | None:
    """How deep this ball's top lies in the wanted socket [mm]; None where its size is not known or it is
    parallel.
    """
    cone = part.cone
    if cone.large_diameter is None or cone.rate <= 0.0:
        return None
    return depth(ball, cone.large_diameter, cone.half_angle)


def touches(part: Part, ball: float) -> float | None:
    """How deep the ball touches the wanted socket [mm from the face]; None where `target` is."""
    top = target(part, ball)
    if top is None:
        return None
    r = 0.5 * ball
    return top + r + r * math.sin(part.cone.half_angle)


def steps(part: Part) -> Sequence[str]:
    """How to measure a bore by balls."""
    return (
        "Stop the spindle and isolate it. Let the part cool; clear the bore of swarf,"
        " wipe bore, balls and face.",
        "Let the smaller ball down gently on a magnet or grease and seat it with a light push; it must"
        " touch the bore all round, not the bottom.",
        "Measure from the face to the top of the ball with a depth micrometer, three"
        " times round; take the mean.",
        "The same with the larger ball. A ball that stands proud: measure over a"
        " parallel and enter it below 0.",
    )
