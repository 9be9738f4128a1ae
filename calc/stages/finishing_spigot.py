"""The spigot: a parallel end to a wanted fit, its limits, and how much is still to come off."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawings.spigot import FitView, fit_picture
from calc.machining.fits import LARGEST, SOURCE
from calc.machining.wanted_fit import Fit, UnclearFit, read_fit
from calc.quantities import shown_length, shown_micrometres
from calc.sheet import Both, Caution, Fault, Field, Figure, Working, same
from calc.stages.form import LENGTH_UNIT, LONGEST_ECHO, Form
from calc.stages.said import Said
from calc.stages.shop import POLISHING, PRACTICE, limits, line
from calc.tables.loader import load
from calc.tables.published import source_title

DEFAULT_FIT = "H7/h6"
WARMER = 20.0
"""Kelvin above the shop that a part just turned may well be: common practice, no source."""


@dataclass(frozen=True, slots=True)
class SpigotWanted:
    """Nominal size [mm], the fit, and what it measures now [mm] or None."""

    nominal: float
    fit: Fit
    now: float | None

    @property
    def limits(self) -> tuple[float, float]:
        """Least and most [mm]."""
        return self.fit.limits(self.nominal)


def ask_spigot(form: Form) -> SpigotWanted | None:
    """Ask for the spigot's size, and then for fit and measure; None where none is wanted."""
    nominal = form.length(
        "finishing.spigot",
        "Spigot, size of the hole it goes into",
        least=1.0,
        most=LARGEST,
        help="Empty: no spigot. The nominal size, such as 1 in.",
    )
    if nominal is None:
        return None
    fit = _ask_fit(form, nominal)
    now = form.length(
        "finishing.spigot_now",
        "Spigot measures now",
        least=0.5,
        most=LARGEST * 2,
        help="Cold. Empty until turned.",
    )
    return SpigotWanted(nominal, fit, now) if fit is not None and not form.wrong else None


def _ask_fit(form: Form, nominal: float) -> Fit | None:
    typed = form.entries.get("finishing.fit", "")
    fit, wrong, read = None, None, ""
    try:
        fit = read_fit(typed[:200] if typed.strip() else DEFAULT_FIT, nominal, LENGTH_UNIT[form.system])
        if typed.strip():
            form.normalised["finishing.fit"] = fit.text
            read = f"read as {fit.text}"
    except UnclearFit as error:
        form.wrong = True
        shown = typed[:LONGEST_ECHO]
        wrong = Fault(error.message, shown, 0, len(shown), error.way_out, error.offers)
    help = (
        "A pair such as H7/g6; a word: running, sliding, close, push, tight, press, drive; or 2 thou under."
    )
    form.fields.append(
        Field("finishing.fit", "Fit", "text", typed, DEFAULT_FIT, "", (), help, read, wrong, (), form.group)
    )
    return fit


def spigot_said(wanted: SpigotWanted, system: str) -> Said:
    """Limits, clearance, what is to come off, and the caution about a warm part."""
    told, name = limits(*wanted.limits), _name(wanted.fit)
    said = Said(
        line=f"spigot {told[system]} ({name})",
        figures=[_limits(wanted, name), _clearance(wanted), *_to_go(wanted)],
        steps=_steps(wanted, system),
        cautions=[_warm(wanted, system), POLISHING],
    )
    said.drawing = _drawing(wanted, system)
    return said


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


def _steps(wanted: SpigotWanted, system: str) -> list[str]:
    least, most = wanted.limits
    told = limits(least, most)[system]
    middle = shown_length((least + most) / 2.0, (most - least) / 4.0)[system]
    if wanted.now is None:
        return [
            f"Turn the spigot in the same hold as the taper, to {told}; aim at {middle}. Measure it cold."
        ]
    off = wanted.now - (least + most) / 2.0
    if least - 1e-9 <= wanted.now <= most + 1e-9:
        return [f"The spigot is inside its limits, {told}: leave it."]
    if off < 0.0:
        return [
            "The spigot is under its least: turn it down for a bush or a smaller hole, or begin another head."
        ]
    on, cut = shown_length(off), shown_length(off / 2.0)
    return [
        f"Take {on['mm']} ({on['inch']}) off the spigot's diameter: the tool goes in by {cut['mm']}"
        f" ({cut['inch']}), which a dial that reads diameter shows doubled.",
        "Take half of it first, at the last cut's feed and speed, let it cool, measure, then the rest.",
    ]


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
