"""The spigot: a parallel end to a wanted fit, its limits, and how much is still to come off."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawings.spigot import FitView, fit_picture
from calc.machining.fits import SOURCE
from calc.machining.wanted_fit import Fit
from calc.quantities import shown_length, shown_micrometres
from calc.sheet import Both, Caution, Figure, Step, Working, same
from calc.stages.common.sheet_part import SheetPart
from calc.stages.common.shop import PRACTICE, limits, line
from calc.stages.common.spigot import SpigotWanted
from calc.tables.loader import load
from calc.tables.published import source_title

INCH = 25.4
KELVIN_IN_FAHRENHEIT = 1.8
WARMER = 20.0
"""Kelvin above the shop that a part just turned may well be: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Held:
    """How the work is held: between centres, by a chucking allowance that is sawn off, its drawbar.

    seats: its taper is a shank's, which some spindle or sleeve takes.
    """

    between_centres: bool
    held: bool
    drawbar: bool
    seats: bool


def spigot_part(wanted: SpigotWanted, held: Held, system: str) -> SheetPart:
    """Limits, clearance, what is to come off, and the caution about a warm part."""
    told, name = limits(*wanted.limits), _name(wanted.fit)
    part = SheetPart(
        line=f"spigot {told[system]} ({name})",
        figures=[_limits(wanted, name), _clearance(wanted), *_to_go(wanted)],
        steps=_steps(wanted, held),
        cautions=[_warm(wanted, system)],
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
        f"Spigot, min. to max. ({name})",
        list(wanted.limits),
        "mm",
        shown=limits(*wanted.limits),
        working=[
            Working(
                "nominal size + lower and upper limit deviation",
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
                "smallest hole − largest spigot to largest hole − smallest spigot",
                line("hole {a}: {b}", a=hole, b=shown),
                _what(least, most),
            )
        ],
        source=SOURCE,
    )


def _clear(least: float, most: float) -> Both:
    """Clearance, the least and the most [mm], in words; below 0 it is interference."""
    if least >= 0.0:
        return limits(least, most)
    if most <= 0.0:
        return line("{a} of interference", a=limits(-most, -least))
    return line("{a} of interference to {b} of clearance", a=shown_length(-least), b=shown_length(most))


def _what(least: float, most: float) -> str:
    if least >= 0.0:
        return "A clearance fit: the spigot is always the smaller."
    return (
        "An interference fit: it wants a press, or the hole warmed."
        if most <= 0.0
        else "A transition fit: slight interference or slight clearance, as the sizes fall."
    )


def _to_go(wanted: SpigotWanted) -> list[Figure]:
    """What is to come off, from the measure now to the middle of the limits."""
    if wanted.now is None:
        return []
    least, most = wanted.limits
    off = wanted.now - (least + most) / 2.0
    inside = least - 1e-9 <= wanted.now <= most + 1e-9
    shown: Both = shown_length(off)
    if inside:
        shown = same("nothing: it is inside its limits")
    elif off < 0.0:
        shown = line("nothing left: {a} under its min.", a=shown_length(least - wanted.now))
    return [
        Figure(
            "finishing.spigot_to_go",
            "Still to come off, on diameter",
            0.0 if inside else off,
            "mm",
            shown=shown,
            working=[
                Working(
                    "diameter now − middle of the limits; the tool goes in by half",
                    line(
                        "{a} − {b} = {c} on diameter, {d} depth of cut",
                        a=shown_length(wanted.now), b=shown_length((least + most) / 2.0), c=shown_length(off),
                        d=shown_length(off / 2.0),
                    ),
                )
            ],
            source="Difference of two diameters",
        )
    ]  # fmt: skip


def expansion(system: str) -> tuple[float, str]:
    """Linear expansion of carbon steel [1/K], and where it comes from, in the units of `system`."""
    row = next(each for each in load("expansion") if each["material"] == "carbon steel")
    sources = "; ".join(source_title(key) for key in row["sources"].split())
    said = f"{row['value']} {row['unit']}"
    if system == "inch":
        said = f"{float(row['value']) / KELVIN_IN_FAHRENHEIT:.1f} µin/(in·°F)"
    return float(row["value"]) * 1e-6, f"{said}, {sources}"


def _warm(wanted: SpigotWanted, system: str) -> Caution:
    rate, source = expansion(system)
    grown = shown_micrometres(wanted.nominal * rate * WARMER)[system].lstrip("+")
    degrees = "20 °C" if system == "mm" else "36 °F"
    return Caution(
        "care",
        f"Measure cold: {degrees} warmer, this steel spigot reads {grown} large, and shrinks by that later.",
        f"Expansion of carbon steel {source}.",
        "warm_spigot",
    )


def _aim(least: float, most: float) -> Both:
    """The middle of two limits [mm], to a micrometre and to 0.0001 in where that is still inside them."""
    middle = (least + most) / 2.0
    metric, inch = round(middle, 3), round(middle / INCH, 4) * INCH
    return {
        "mm": shown_length(metric if least <= metric <= most else middle)["mm"],
        "inch": shown_length(inch if least <= inch <= most else middle)["inch"],
    }


def _steps(wanted: SpigotWanted, held: Held) -> list[Step]:
    """What is still to be done to it."""
    told = limits(*wanted.limits)
    if wanted.now is None:
        return _to_turn(told, _aim(*wanted.limits), held)
    least, most = wanted.limits
    off = wanted.now - (least + most) / 2.0
    if least - 1e-9 <= wanted.now <= most + 1e-9:
        done = line("The spigot is inside its limits, {a}: leave it.", a=told)
        return [_step("spigot_done", done, ("finishing.spigot_now",))]
    if off < 0.0:
        under = (
            "The spigot is under its min.: turn it down for a bush or a smaller hole, or begin another head."
        )
        return [_step("spigot_under", same(under), ("finishing.spigot_now",))]
    return [
        _step(
            "spigot_off",
            line(
                "Take {a} off the spigot's diameter, by the carriage: the tool goes in by {b}, which a"
                " cross-slide collar that reads diameter shows doubled.",
                a=shown_length(off), b=shown_length(off / 2.0),
            ),
        ),
        _step(
            "spigot_half",
            same(
                "Take half of it first, at the feed and speed of the last cut, let it cool, stop the spindle"
                " and"
                " measure, then the rest."
            ),
            ("finishing.spigot_now",),
        ),
    ]  # fmt: skip


def _to_turn(told: Both, aim: Both, held: Held) -> list[Step]:
    """At the taper's own setting, true to it of itself; else with the shank seated in the spindle."""
    where = "At the same setting as the taper"
    if held.between_centres:
        where = "Between the same centres, the tailstock back in line"
    turn = (
        f"{where}, turn the spigot by the carriage, the top slide (compound) left alone: {{a}}; aim at {{b}}."
        " So it runs true to the taper. Measure it cold."
    )
    left = " Where the tool does not get at it there, leave {c} on it for now." if held.held else ""
    found = [
        _step(
            "spigot",
            line(turn + left, a=told, b=aim, c={"mm": "0.5 mm", "inch": "0.02 in"}),
            ("finishing.spigot_now",),
        )
    ]
    if held.held:
        kept = "draw it tight by the drawbar"
        if not held.drawbar:
            kept = (
                "press it home by a rotating (live) centre in its outer end: without a drawbar nothing else"
                " holds it"
            )
        where = (
            "wipe shank and spindle, seat the shank in the headstock's spindle, in a sleeve if it is smaller,"
            f" and {kept}"
        )
        if not held.seats:
            where = (
                "hold the part by its taper in a socket that was bored to it and has not left its chuck, or"
                " in"
                " soft jaws, with a rotating (live) centre in its outer end"
            )
        seated = (
            f"If it was left: {where}. Prove with an indicator that it runs true, then turn the spigot to"
            f" {{a}}."
        )
        found.append(
            Step(
                "finishing.spigot_seated",
                "part",
                line(seated, a=told),
                ("stopped",),
                ("finishing.spigot_now",),
                ("finishing.spigot_limits",),
                order=60,
            )
        )
    return found


def _step(word: str, text: Both, asks: tuple[str, ...] = ()) -> Step:
    return Step(
        f"finishing.{word}", "finish", text, ("stopped", "warm_spigot"), asks, ("finishing.spigot_limits",)
    )


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
