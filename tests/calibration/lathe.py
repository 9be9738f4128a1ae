"""A lathe in vectors, on which settings are carried out with everything at its true size: plain physics.

Nothing here comes from the core. x runs along the bed towards the tailstock, y away from the operator, z up.
The taper's small end points to the tailstock and the tool cuts the operator's side, so the slide runs from
large end to small end along (cos a, sin a): each array holds one value for every setting simulated.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Truth:
    """What one bar, one lathe and one cut really are like [mm, K]; arrays of the same size."""

    centres: Array
    headstock_pin: Array
    tailstock_pin: Array
    edge_run: Array
    stack: Array
    swept_run: Array
    swept_length: float
    side_run: Array
    side_length: float
    axis_on_diameter: Array
    axis_length: float
    tool_height: Array
    warmer: Array


def _turned(vectors: Array, angle: Array) -> Array:
    """Plan vectors turned anticlockwise by an angle [rad] each."""
    cos, sin = np.cos(angle), np.sin(angle)
    x, y = vectors[:, 0], vectors[:, 1]
    return np.stack([cos * x - sin * y, sin * x + cos * y], axis=1)


def _direction(vectors: Array) -> Array:
    return np.asarray(np.arctan2(vectors[:, 1], vectors[:, 0]))


def slide_travel(truth: Truth) -> Array:
    """Unit vectors (x, y) of the slide's travel once the bar's edge reads alike at both ends of the sweep."""
    count = truth.centres.size
    # In the frame of the slide's side: the side runs along u, and the bar's pins stand off it along v.
    off_head = 0.5 * truth.headstock_pin
    off_tail = 0.5 * truth.tailstock_pin + truth.stack
    along = np.sqrt(truth.centres**2 - (off_tail - off_head) ** 2)
    pins = np.stack([along, off_tail - off_head], axis=1)
    # The edge that is swept leaves the line of the pins by its own run over the bar.
    across = np.stack([-pins[:, 1], pins[:, 0]], axis=1) / truth.centres[:, None]
    edge = pins + across * truth.edge_run[:, None]
    # The bar lies on the operator's side of the slide: its stand-off points to the operator, -y.
    edge[:, 1] *= -1.0
    # The carriage runs along the bed and sees this run over the length swept.
    seen = np.stack([np.full(count, truth.swept_length), truth.swept_run], axis=1)
    turn = _direction(seen) - _direction(edge)
    side = _turned(np.tile([1.0, 0.0], (count, 1)), turn)
    # The travel leaves the side by what an indicator run along it would show.
    run = np.stack([np.full(count, truth.side_length), truth.side_run], axis=1)
    return _turned(side, _direction(run))


def error_on_diameter(truth: Truth, large: float, small: float, length: float, expansion: float) -> Array:
    """As `cut`, with the slide set by the bar."""
    slope = 0.5 * truth.axis_on_diameter / truth.axis_length
    size = (large, small, length)
    return cut(slide_travel(truth), slope, truth.tool_height, expansion * truth.warmer, size)


def cut(
    travel: Array, axis_slope: Array, tool_height: Array, growth: Array, size: tuple[float, float, float]
) -> Array:
    """What the turned part is out by: its difference of diameters over the length, less the one wanted [mm].

    The tool's point runs in a level plane along `travel`, above or below the axis, which leaves the bed by
    `axis_slope`; the size is set true at the large end, which has grown by the part `growth` when it is
    measured. size: large and small diameter and length wanted.
    """
    large, small, length = size
    count = axis_slope.size
    axis = np.stack([np.ones(count), axis_slope, np.zeros(count)], axis=1)
    axis /= np.linalg.norm(axis, axis=1)[:, None]
    move = np.concatenate([travel, np.zeros((count, 1))], axis=1)
    # At the large end the tip touches the radius wanted, on the operator's side, square to the axis in plan.
    square = np.stack([axis[:, 1], -axis[:, 0], np.zeros(count)], axis=1)
    up = np.tile([0.0, 0.0, 1.0], (count, 1))
    out = np.sqrt((0.5 * large) ** 2 - tool_height**2)
    tip = square * out[:, None] + up * tool_height[:, None]
    # Wound along the slide until it stands the taper's length further along the axis.
    wound = length / np.sum(move * axis, axis=1)
    end = tip + move * wound[:, None]
    beside = end - axis * np.sum(end * axis, axis=1)[:, None]
    return np.asarray(large * (1.0 + growth) - 2.0 * np.linalg.norm(beside, axis=1) - (large - small))


def travel_by_dial(
    reading: Array, wound: Array, bar_slope: Array, plunger_off: Array, square_to: str, steepest: float = 1.2
) -> Array:
    """Unit vectors of the slide's travel at which a dial on it reads so much over so much winding [mm].

    The dial's point runs along the side of a test bar that leaves the axis by `bar_slope`. The plunger stands
    square to the "axis" or to the "slide", off by `plunger_off` [rad]. Found by halving the angle's range.
    """
    side = np.stack([np.ones(reading.size), bar_slope], axis=1)
    low, high = np.zeros(reading.size), np.full(reading.size, steepest)
    for _ in range(60):
        angle = 0.5 * (low + high)
        slide = np.stack([np.cos(angle), np.sin(angle)], axis=1)
        lean = plunger_off + (angle if square_to == "slide" else 0.0)
        plunger = np.stack([-np.sin(lean), np.cos(lean)], axis=1)
        moved = slide * wound[:, None]
        # How far along itself the plunger must go to reach the bar's side again.
        pushed = _cross(side, moved) / _cross(side, plunger)
        over = pushed > reading
        low, high = np.where(over, low, angle), np.where(over, angle, high)
    return np.stack([np.cos(low), np.sin(low)], axis=1)


def turned(vectors: Array, angle: Array) -> Array:
    """Plan vectors turned by an angle [rad] each."""
    return _turned(vectors, angle)


def _cross(first: Array, second: Array) -> Array:
    return np.asarray(first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0])
