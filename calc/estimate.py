"""A value with its uncertainty, and how uncertainty travels.

The law of propagation of uncertainty to first order: JCGM 100:2008 (GUM), clause 5. Every source of doubt has
a key, and an Estimate holds for each key its signed contribution, sensitivity times standard uncertainty.
Contributions of one key add with their signs and different keys add by their squares, so that what two
results share is treated as shared: `x - x` is exactly 0 ± 0.

First order holds while the spread is small against the curvature of what is computed; keep it so.

A source is taken to be rectangular (GUM 4.3.7) unless its shape is given: some act one-sidedly, such as a
plunger that is askew or a tool off centre height, and a rectangle in their place misjudges chances. The shape
belongs to the source; its contribution scales it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import TypeAlias

_SMALLEST_MOVE = 1e-6

Strip: TypeAlias = "tuple[float, float]"
"""One of several equally likely rectangles: its middle and its half-width."""
Shape: TypeAlias = "Sequence[Strip]"
"""How a source is spread, as equally likely strips; in units of one standard uncertainty, about its mean."""

_NO_SHAPES: Mapping[str, Shape] = {}


class Estimate:
    """A value and, for each source of doubt, its signed standard contribution. Any unit, the same throughout.

    Attributes:
        value: the best value.
        parts: source key to signed contribution (one standard uncertainty); never altered, none of them 0.
        shapes: of sources that are not rectangular, by key; a negative contribution turns the shape over.
    """

    __slots__ = ("value", "parts", "shapes")

    def __init__(
        self,
        value: float,
        parts: Mapping[str, float] | None = None,
        shapes: Mapping[str, Shape] = _NO_SHAPES,
    ) -> None:
        self.value = float(value)
        self.parts: Mapping[str, float] = {key: float(part) for key, part in (parts or {}).items() if part}
        self.shapes = shapes

    @property
    def standard(self) -> float:
        """Standard uncertainty: the root of the sum of squares of the contributions (GUM 5.1.2)."""
        return math.hypot(*self.parts.values())

    @property
    def expanded(self) -> float:
        """Expanded uncertainty with k = 2, about 95 % (GUM 6.2, 6.3.3): the ± that is shown."""
        return 2 * self.standard

    @property
    def halves(self) -> tuple[float, ...]:
        """Its sources as rectangles: the half-width of each (GUM 4.3.7)."""
        return tuple(math.sqrt(3.0) * abs(part) for part in self.parts.values())

    @property
    def reach(self) -> float:
        """The furthest it can be out, every source at its limit."""
        return sum(self.halves)

    def share(self, key: str) -> float:
        """The signed contribution of one source, 0 for a source without any."""
        return self.parts.get(key, 0.0)

    def only(self, keep: Callable[[str], bool]) -> Estimate:
        """The same value with the doubt of those sources alone whose key is to be kept."""
        return Estimate(self.value, {key: part for key, part in self.parts.items() if keep(key)}, self.shapes)

    def ranked(self) -> list[tuple[str, float]]:
        """The sources with their signed contributions, the largest first."""
        return sorted(self.parts.items(), key=lambda item: (-abs(item[1]), item[0]))

    def __repr__(self) -> str:
        return f"Estimate({self.value!r}, {dict(self.parts)!r})"

    def __neg__(self) -> Estimate:
        return _linear(-self.value, (self, -1.0))

    def __add__(self, other: Number) -> Estimate:
        more = exact(other)
        return _linear(self.value + more.value, (self, 1.0), (more, 1.0))

    __radd__ = __add__

    def __sub__(self, other: Number) -> Estimate:
        less = exact(other)
        return _linear(self.value - less.value, (self, 1.0), (less, -1.0))

    def __rsub__(self, other: Number) -> Estimate:
        return exact(other) - self

    def __mul__(self, other: Number) -> Estimate:
        factor = exact(other)
        return _linear(self.value * factor.value, (self, factor.value), (factor, self.value))

    __rmul__ = __mul__

    def __truediv__(self, other: Number) -> Estimate:
        divisor = exact(other)
        quotient = self.value / divisor.value
        return _linear(quotient, (self, 1 / divisor.value), (divisor, -quotient / divisor.value))

    def __rtruediv__(self, other: Number) -> Estimate:
        return exact(other) / self


Number: TypeAlias = "Estimate | float"


def exact(value: Number) -> Estimate:
    """A value without doubt; an Estimate is handed back as it is."""
    return value if isinstance(value, Estimate) else Estimate(value)


def limits(value: float, half_width: float, key: str) -> Estimate:
    """A value known to lie within ± `half_width`, anywhere alike: u = half_width / sqrt 3 (GUM 4.3.7)."""
    return normal(value, half_width / math.sqrt(3), key)


def normal(value: float, standard: float, key: str) -> Estimate:
    """A value with its standard uncertainty; raises ValueError where that is negative or not finite."""
    if not 0 <= standard < math.inf:
        raise ValueError("an uncertainty is 0 or more, and finite")
    return Estimate(value, {key: standard})


TWIN = "/"
"""Stands between the key of a source and the place of one of several alike."""


def twin(key: str, place: int) -> str:
    """The key of one of several alike that are out each by itself: two centres, two collars, two dials."""
    return f"{key}{TWIN}{place}"


def source_of(key: str) -> str:
    """The source a key speaks of, without its place among several alike."""
    return key.partition(TWIN)[0]


def _shapes(estimates: Sequence[Estimate]) -> Mapping[str, Shape]:
    shaped = [each.shapes for each in estimates if each.shapes]
    if not shaped:
        return _NO_SHAPES
    return shaped[0] if len(shaped) == 1 else {key: shape for each in shaped for key, shape in each.items()}


def _linear(value: float, *terms: tuple[Estimate, float]) -> Estimate:
    """An Estimate from its value and its inputs with their sensitivities (GUM 5.1.3)."""
    parts: dict[str, float] = {}
    for estimate, sensitivity in terms:
        for key, part in estimate.parts.items():
            parts[key] = parts.get(key, 0.0) + sensitivity * part
    return Estimate(value, parts, _shapes([estimate for estimate, _ in terms]))


def sin(angle: Number) -> Estimate:
    """Sine of an angle [rad]."""
    x = exact(angle)
    return _linear(math.sin(x.value), (x, math.cos(x.value)))


def cos(angle: Number) -> Estimate:
    """Cosine of an angle [rad]."""
    x = exact(angle)
    return _linear(math.cos(x.value), (x, -math.sin(x.value)))


def tan(angle: Number) -> Estimate:
    """Tangent of an angle [rad]."""
    x = exact(angle)
    tangent = math.tan(x.value)
    return _linear(tangent, (x, 1 + tangent * tangent))


def asin(ratio: Number) -> Estimate:
    """Angle [rad] with this sine; raises ValueError from -1 down and from 1 up, where first order fails."""
    x = exact(ratio)
    if not -1 < x.value < 1:
        raise ValueError("a sine must lie between -1 and 1")
    return _linear(math.asin(x.value), (x, 1 / math.sqrt((1 - x.value) * (1 + x.value))))


def atan(ratio: Number) -> Estimate:
    """Angle [rad] with this tangent."""
    x = exact(ratio)
    return _linear(math.atan(x.value), (x, 1 / (1 + x.value * x.value)))


def sqrt(number: Number) -> Estimate:
    """Square root; raises ValueError below 0, and at 0 where the number has any doubt."""
    x = exact(number)
    if not x.parts:
        return Estimate(math.sqrt(x.value))
    if x.value <= 0:
        raise ValueError("the root of a doubtful number needs it above 0")
    root = math.sqrt(x.value)
    return _linear(root, (x, 0.5 / root))


def through(function: Callable[..., float], *estimates: Number) -> Estimate:
    """A function of floats taken of Estimates.

    Each source in turn moves every input by that input's contribution, up and down; half the difference is
    the contribution to the result (GUM 5.1.3, note 2). Where the function cannot follow so far (ValueError,
    ZeroDivisionError, OverflowError), a thousandth of the move is used. Raises what the function raises at
    the values themselves.
    """
    inputs = [exact(one) for one in estimates]
    values = [one.value for one in inputs]
    value = function(*values)
    parts: dict[str, float] = {}
    for key in dict.fromkeys(key for one in inputs for key in one.parts):
        moves = [one.share(key) for one in inputs]
        parts[key] = _half_difference(function, values, moves)
    return Estimate(value, parts, _shapes(inputs))


def _half_difference(function: Callable[..., float], values: list[float], moves: list[float]) -> float:
    relative = max(abs(move) / abs(at) if at else 1.0 for at, move in zip(values, moves, strict=True))
    # Moves lost in the rounding of the values are enlarged, and the result reduced again.
    scale = 1.0 if not relative or relative >= _SMALLEST_MOVE else _SMALLEST_MOVE / relative
    try:
        return _difference(function, values, moves, scale)
    except (ValueError, ZeroDivisionError, OverflowError):
        return _difference(function, values, moves, scale / 1000)


def _difference(
    function: Callable[..., float], values: list[float], moves: list[float], scale: float
) -> float:
    up = [at + scale * move for at, move in zip(values, moves, strict=True)]
    down = [at - scale * move for at, move in zip(values, moves, strict=True)]
    return (function(*up) - function(*down)) / (2 * scale)
