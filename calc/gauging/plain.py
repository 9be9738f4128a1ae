"""Plain questions beside the proving: a sine bar's angle from a height and the height for an angle.

    angle = asin(height / centres),   height = centres × sin(angle)

Source: US Army TC 9-524, Fundamentals of Machine Tools (1996), appendix C.
"""

from __future__ import annotations

import math


def sine_angle(height: float, centres: float) -> float:
    """Angle [rad] of a sine bar on so high a stack [mm]; raises ValueError from the bar's own length on."""
    if not 0.0 <= height < centres:
        raise ValueError("the stack must be lower than the bar is long")
    return math.asin(height / centres)


def sine_height(angle: float, centres: float) -> float:
    """Height of the stack [mm] under a sine bar for an angle [rad], 0 to 90 degrees."""
    return centres * math.sin(angle)
