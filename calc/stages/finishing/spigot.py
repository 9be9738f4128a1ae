"""The spigot: a parallel end to a wanted fit, its limits, and how much is still to come off."""

from __future__ import annotations

from calc.drawings.spigot import FitView, fit_picture
from calc.machining.fits import SOURCE
from calc.machining.wanted_fit import Fit
from calc.quantities import shown_length, shown_micrometres
from calc.sheet import Both, Caution, Figure, Step, Working, same
from calc.stages.common.sheet_part import SheetPart
from calc.stages.common.shop import POLISHING, PRACTICE, limits, line
from calc.stages.common.spigot import SpigotWanted
from calc.stages.common.steps import both_systems
from calc.tables.loader import load
from calc.tables.published import source_title

WARMER = 20.0
"""Kelvin above the shop that a part just turned may well be: common practice, no source."""


def spigot_part(wanted: SpigotWanted, system: str) -> SheetPart:
    """Limits, clearance, what is to come off, and the caution about a warm part."""
    told, name = limits(*wanted.limits), _name(wanted.fit)
    part = SheetPart(
        line=f"spigot {told[system]} ({name})",
        figures=[_limits(wanted, name), _clearance(wanted), *_to_go(wanted)],
        steps=both_systems(lambda each: _steps(wanted, each)),
        cautions=[_warm(wanted, system), POLISHING],
    )
    part.drawing = _drawing(wanted, system)
    return part


def _name(fit: Fit) -> str:
    pair = f"{fit.hole.name}/{fit.shaft.name}"
    return fit.text if fit.exact else f"{fit.text}, much like {pair}"


def _limits(wanted: SpigotWanted, name: str) -> Figure:
    fit = wanted.fit
    low, high = (shown_length(each) for each in wanted.limits)
    nominal = shown_length(wanted.nominal)
    lower, upper = shown_micrometres(fit.lower / 1000.0), shown_micrometres(fit.upper / 1000.0)
    note = ""
    if not fit.exact:
        note = f"{PRACTICE}: what it means. Nearest in ISO 286: {fit.hole.name}/{fit.shaft.name}."
    if fit.feel:
        note = f"It {fit.feel}. {note}".strip()
    return Figure(
        "finishing.spigot_limits",
        f"Spigot, least to most ({name})",
        list(wanted.limits),
        "mm",
        shown=limits(*wanted.limits),
        working=[
            Working(
                "nominal size + lower and upper deviation",
                line("{a}; {b}, {c} = {d} to {e}", a=nominal, b=lower, c=upper, d=low, e=high),
                note,
            )
        ],
        source=SOURCE if fit.exact or fit.feel else PRACTICE,
        lead=True,
    )


def _clearance(wanted: SpigotWanted) -> Figure:
    least, most = (each / 1000.0 for each in wanted.fit.clearance())
    hole = limits(*wanted.fit.hole.limits(wanted.nominal))
    shown = _clear(least, most)
    return Figure(
        "finishing.clearance",
        f"Clearance in a hole {wanted.fit.hole.name}",
        [least, most],
        "mm",
        shown=shown,
        working=[
            Working(
                "hole − spigot, least with most and most with least",
                line("hole {a}: {b}", a=hole, b=shown),
                _what(least, most),
            )
        ],
        source=SOURCE,
    )


def _clear(least: float, most: float) -> Both:
    """Clearance from least to most [mm] in words; below nought it is tight."""
    if least >= 0.0:
        return limits(least, most)
    if most <= 0.0:
        return line("{a} tight", a=limits(-most, -least))
    return line("{a} tight to {b} clear", a=shown_length(-least), b=shown_length(most))


def _what(least: float, most: float) -> str:
    if least >= 0.0:
        return "A clearance fit: the spigot is always the smaller."
    return (
        "An interference fit: force or warmth."
        if most <= 0.0
        else "A transition fit: a little tight or loose."
    )


def _to_go(wanted: SpigotWanted) -> list[Figure]:
    """What is to come off, from the measure now to the middle of the limits."""
    if wanted.now is None:
        return []
    least, most = wanted.limits
    off = wanted.now - (least + most) / 2.0
    inside = least - 1e-9 <= wanted.now <= most + 1e-9
    words = "inside its limits" if inside else "too small: under its least" if off < 0.0 else ""
    shown = same(words) if words else shown_length(off)
    return [
        Figure(
            "finishing.spigot_to_go",
            "Still to come off, on diameter",
            0.0 if inside else off,
            "mm",
            shown=shown,
            working=[
                Working(
                    "measure now − middle of the limits; a cut goes in by half",
                    line(
                        "{a} − {b} = {c} on diameter, {d} of cut",
                        a=shown_length(wanted.now), b=shown_length((least + most) / 2.0), c=shown_length(off),
                        d=shown_length(off / 2.0),
                    ),
                )
            ],
            source="Difference of two diameters",
        )
    ]  # fmt: skip


def expansion() -> tuple[float, str]:
    """Linear expansion of carbon steel [1/K], and where it comes from."""
    row = next(each for each in load("expansion") if each["material"] == "carbon steel")
    sources = "; ".join(source_title(key) for key in row["sources"].split())
    return float(row["value"]) * 1e-6, f"{row['value']} {row['unit']}, {sources}"


def _warm(wanted: SpigotWanted, system: str) -> Caution:
    rate, source = expansion()
    grown = shown_micrometres(wanted.nominal * rate * WARMER)[system].lstrip("+")
    degrees = "20 °C" if system == "mm" else "36 °F"
    return Caution(
        "care",
        f"Measure cold: {degrees} warmer, this steel spigot reads {grown} large, and shrinks by that later.",
        f"Expansion of carbon steel {source}.",
    )


def _steps(wanted: SpigotWanted, system: str) -> list[Step]:
    """What is still to be done to it, in one system."""
    least, most = wanted.limits
    told = limits(least, most)[system]
    middle = shown_length((least + most) / 2.0, (most - least) / 4.0)[system]
    if wanted.now is None:
        turn = f"Turn the spigot in the same hold as the taper, to {told}; aim at {middle}. Measure it cold."
        return [_step("spigot", turn, ("finishing.spigot_now",))]
    off = wanted.now - (least + most) / 2.0
    if least - 1e-9 <= wanted.now <= most + 1e-9:
        return [_step("spigot_done", f"The spigot is inside its limits, {told}: leave it.")]
    if off < 0.0:
        under = (
            "The spigot is under its least: turn it down for a bush or a smaller hole, or begin another head."
        )
        return [_step("spigot_under", under)]
    on, cut = shown_length(off), shown_length(off / 2.0)
    return [
        _step(
            "spigot_off",
            f"Take {on['mm']} ({on['inch']}) off the spigot's diameter: the tool goes in by {cut['mm']}"
            f" ({cut['inch']}), which a dial that reads diameter shows doubled.",
        ),
        _step(
            "spigot_half",
            "Take half of it first, at the last cut's feed and speed, let it cool, measure, then the rest.",
            ("finishing.spigot_now",),
        ),
    ]


def _step(word: str, text: str, asks: tuple[str, ...] = ()) -> Step:
    return Step(f"finishing.{word}", "finish", same(text), asks=asks, shows=("finishing.spigot_limits",))


def _drawing(wanted: SpigotWanted, system: str) -> str:
    fit, nominal = wanted.fit, wanted.nominal
    least, most = (each / 1000.0 for each in fit.clearance())
    now = (wanted.now - nominal) * 1000.0 if wanted.now is not None else None
    words = {
        "nominal": shown_length(nominal)[system],
        "hole": f"hole {fit.hole.name}",
        "spigot": f"spigot {fit.shaft.name}" if fit.exact or fit.feel else "spigot",
        "hole_limits": limits(*fit.hole.limits(nominal))[system],
        "spigot_limits": limits(*wanted.limits)[system],
        "clearance": _clear(least, most)[system],
        "kind": "in the hole",
        "now": shown_length(wanted.now)[system] if wanted.now is not None else "",
    }
    return fit_picture(FitView((fit.hole.lower, fit.hole.upper), (fit.lower, fit.upper), now), words)
