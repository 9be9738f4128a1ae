"""Self-holding or self-releasing: the figure and the words for the taper stage."""

from __future__ import annotations

from calc.cone import Cone
from calc.identify.holding import RELEASING, RULE, STEEP, STEEPEST, Holding, holding, steep_from
from calc.quantities import shown_angle
from calc.sheet import Figure, Row, Table, Working, same
from calc.tables.friction import Friction

ID = "taper.holding"
SAID = {RELEASING: "self-releasing", STEEP: "self-releasing: a steep taper by class"}
"""The verdict in the trade's words, where they are not the value's own."""


def figure(cone: Cone) -> Figure | None:
    """Whether the taper holds itself, with the range of friction that decides; None for a parallel part."""
    if not 0.0 < cone.half_angle <= STEEPEST:
        return None
    found = holding(cone.half_angle)
    return Figure(
        ID,
        "Self-holding or self-releasing",
        found.verdict,
        shown=same(SAID.get(found.verdict, found.verdict)),
        working=[
            *_class(cone, found),
            Working(
                "it holds where tan(half angle) < friction",
                same(_numbers(cone, found)),
                f"{found.seats} {found.draws}",
            ),
        ],
        source=f"{RULE}. Friction: {_origin(found.friction)}",
        table=Table(
            ["Steel on steel", "Friction", "This taper"],
            [_row(found.tangent, each, each is found.friction) for each in (found.friction, *found.wider)],
        ),
    )


def _class(cone: Cone, found: Holding) -> list[Working]:
    """Why its class goes before the friction, where it does."""
    if found.verdict != STEEP:
        return []
    whole, limit = shown_angle(cone.included_angle)["mm"], shown_angle(2.0 * steep_from())["mm"]
    return [
        Working(
            "steep and self-releasing from about 16° included on",
            same(f"{whole} included, against {limit}"),
            "By class: such a taper is made to let go. What friction says comes second.",
        )
    ]


def _numbers(cone: Cone, found: Holding) -> str:
    angle = shown_angle(cone.half_angle)["mm"]
    decides = found.friction
    sign = "<" if found.tangent < decides.lowest else ">" if found.tangent > decides.highest else "within"
    bound = f"{decides.lowest:.2f} to {decides.highest:.2f}"
    return f"tan({angle}) = {found.tangent:.4f} {sign} {bound} ({decides.condition})"


def _row(tangent: float, friction: Friction, decides: bool) -> Row:
    holds = "holds" if tangent < friction.lowest else "lets go" if tangent > friction.highest else "depends"
    memory = ", from memory" if friction.found.from_memory else ""
    span = f"{friction.lowest:.2f} to {friction.highest:.2f}"
    return Row([same(friction.condition + memory), same(span), same(holds)], decides)


def _origin(friction: Friction) -> str:
    return friction.found.words()
