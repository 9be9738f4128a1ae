"""A lathe as bodies that ride on one another, and indicators fixed to them: plane geometry, nothing of the
core.

x runs along the bed towards the tailstock, y away from the operator; angles grow anticlockwise as seen from
above. What a body does when something is wound follows from what it rides on. An indicator bears on a surface
(a straight line of a body); its reading grows as its plunger is pushed in.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import asin, cos, radians, sin, sqrt, tan

RIDES_ON = {
    "headstock": "bed",
    "tailstock": "bed",
    "tailstock top": "tailstock",
    "carriage": "bed",
    "cross-slide": "carriage",
    "swivel base": "cross-slide",
    "top slide": "swivel base",
    "tool post": "top slide",
    "sine bar": "top slide",
    "test bar": "headstock",
    "master": "headstock",
    "faceplate": "headstock",
    "guide bar": "bed",
}
Point = tuple[float, float]


@dataclass(frozen=True)
class Lathe:
    """How everything stands [mm, rad], and what is not true about it.

    carriage, cross, top: how far each was wound. swivel: the top slide's angle to the bed. over: the
    tailstock's top, away from the operator. guide: the guide bar's angle where an attachment leads the
    cross-slide. axis: the work's axis against the bed. side: the top slide's side against its travel; face:
    of the sine bar's working face against the line of its rollers, both outwards at the tailstock end. gap:
    what keeps the tailstock roller off the side, less what keeps the headstock roller off it. centres: of the
    rollers. bar_side: the side of the top slide on which the bar lies. lean: of a master's surface against
    the axis. between: length of what is carried between centres.
    """

    carriage: float = 0.0
    cross: float = 0.0
    top: float = 0.0
    swivel: float = 0.0
    over: float = 0.0
    guide: float | None = None
    axis: float = 0.0
    side: float = 0.0
    face: float = 0.0
    gap: float = 0.0
    centres: float = 100.0
    bar_side: str = "operator"
    lean: float = 0.0
    between: float = 200.0

    def moved(self, body: str) -> Point:
        """How far a point of this body has gone since nothing was wound."""
        if body == "bed":
            return 0.0, 0.0
        x, y = self.moved(RIDES_ON[body])
        if body == "carriage":
            return x + self.carriage, y
        if body == "cross-slide":
            led = self.carriage * tan(self.guide) if self.guide is not None else 0.0
            return x, y + self.cross + led
        if body == "top slide":
            return x + self.top * cos(self.swivel), y + self.top * sin(self.swivel)
        if body == "tailstock top":
            return x, y + self.over
        return x, y

    def surface(self, what: str, side: str) -> tuple[str, float]:
        """The body that bears this surface, and the surface's angle to the bed; `side` as the words say
        it."""
        outwards = 1.0 if side == "far" else -1.0
        if what == "top slide side":
            return "top slide", self.swivel + outwards * self.side
        if what == "sine bar face":
            outwards = 1.0 if self.bar_side == "far" else -1.0
            line = self.swivel + outwards * (self.side + asin(self.gap / self.centres))
            return "sine bar", line + outwards * self.face
        if what == "test bar":
            return "test bar", self.axis
        if what == "between centres":
            return "test bar", self.axis + asin(self.over / self.between)
        if what == "master":
            return "master", self.axis + self.lean
        if what == "faceplate":
            return "faceplate", self.axis + radians(90.0)
        if what == "barrel":
            return "tailstock top", self.axis
        if what == "carriage end":
            return "carriage", radians(90.0)
        if what == "top slide end":
            return "top slide", self.swivel + radians(90.0)
        if what == "tool post face":
            return "tool post", self.axis + radians(90.0)
        if what == "cross-slide":
            return "cross-slide", 0.0
        raise KeyError(what)


@dataclass(frozen=True)
class Indicator:
    """An indicator fixed to `mount`, on a surface of the lathe, its plunger moving along `direction` [rad].

    direction: of the way that the plunger goes when it comes out, towards the surface.
    """

    mount: str
    what: str
    side: str
    direction: float

    def change(self, before: Lathe, after: Lathe) -> float:
        """How far the plunger goes in between both [mm]."""
        ends = []
        for state in (before, after):
            body, angle = state.surface(self.what, self.side)
            mount, at = state.moved(self.mount), state.moved(body)
            normal = (-sin(angle), cos(angle))
            towards = cos(self.direction) * normal[0] + sin(self.direction) * normal[1]
            gap = (at[0] - mount[0]) * normal[0] + (at[1] - mount[1]) * normal[1]
            ends.append(gap / towards)
        return ends[0] - ends[1]


def rides_with(mount: str, body: str) -> bool:
    """Whether one is the other or rides on it."""
    while body != "bed":
        if body == mount:
            return True
        body = RIDES_ON[body]
    return mount == "bed" and body == mount


def wound(state: Lathe, what: str, far: float) -> Lathe:
    """The same with the carriage, the top slide or the cross-slide wound so far [mm], + to the tailstock."""
    name = {"carriage": "carriage", "top slide": "top", "cross-slide": "cross"}[what]
    return replace(state, **{name: getattr(state, name) + far})


def chord(length: float, across: float) -> float:
    """How far along, where something so long stands off by `across`."""
    return sqrt(length**2 - across**2)
