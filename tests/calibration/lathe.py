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
    """What the turned part is out by: its difference of diameters over the length, less the one wanted [mm].

    The tool's point runs in a level plane, above or below the axis; the size is set true at the large end.
    The part is measured with its large end warmer by `warmer`.
    """
    count = truth.centres.size
    travel = slide_travel(truth)
    slope = 0.5 * truth.axis_on_diameter / truth.axis_length
    axis = np.stack([np.ones(count), slope, np.zeros(count)], axis=1)
    axis /= np.linalg.norm(axis, axis=1)[:, None]
    move = np.concatenate([travel, np.zeros((count, 1))], axis=1)
    # At the large end the tip touches the radius wanted, on the operator's side, square to the axis in plan.
    square = np.stack([axis[:, 1], -axis[:, 0], np.zeros(count)], axis=1)
    up = np.tile([0.0, 0.0, 1.0], (count, 1))
    out = np.sqrt((0.5 * large) ** 2 - truth.tool_height**2)
    tip = square * out[:, None] + up * truth.tool_height[:, None]
    # Wound along the slide until it stands the taper's length further along the axis.
    wound = length / np.sum(move * axis, axis=1)
    end = tip + move * wound[:, None]
    beside = end - axis * np.sum(end * axis, axis=1)[:, None]
    turned = 2.0 * np.linalg.norm(beside, axis=1)
    at_large = large * (1.0 + expansion * truth.warmer)
    return np.asarray(at_large - turned - (large - small))
