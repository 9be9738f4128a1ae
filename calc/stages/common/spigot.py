"""The spigot wanted: asked by Finishing, and read by the blank, whose head must hold it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calc.doubt.asks import Ask
from calc.machining.fits import LARGEST
from calc.machining.wanted_fit import Fit, UnclearFit, read_fit
from calc.sheet import Field
from calc.stages.common.form import LENGTH_UNIT, Form, fault_in

DEFAULT_FIT = "H7/h6"


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
    nominal = form.number(
        Ask(
            "finishing.spigot",
            "Spigot (pilot), size of the hole it goes into",
            "length",
            least=1.0,
            most=LARGEST,
            help="Empty: no spigot. The nominal size, such as 16 mm or 5/8 in.",
        )
    )
    if nominal is None:
        return None
    fit = _ask_fit(form, nominal)
    now = form.number(
        Ask(
            "finishing.spigot_now",
            "Spigot, diameter now",
            "length",
            least=0.5,
            most=LARGEST * 2,
            meanwhile=True,
            help="Measured cold. Empty until it is turned.",
        )
    )
    return SpigotWanted(nominal, fit, now) if fit is not None and not form.wrong else None


def _ask_fit(form: Form, nominal: float) -> Fit | None:
    typed = form.entries.get("finishing.fit", "")
    fit, wrong, read, normalised = None, None, "", None
    try:
        fit = read_fit(typed[:200] if typed.strip() else DEFAULT_FIT, nominal, LENGTH_UNIT[form.system])
        if typed.strip():
            normalised = fit.text
            read = f"read as {fit.text}"
    except UnclearFit as error:
        wrong = replace(fault_in(typed, error.message, error.way_out), offers=error.offers)
    under = "2 thou" if form.system == "inch" else "0.05 mm"
    help = (
        f"A pair such as H7/g6; a word: running, sliding, close, push, tight, press, drive; or {under} under."
    )
    form.put(Field("finishing.fit", "Fit", "text", typed, DEFAULT_FIT, "", (), help, read, wrong), normalised)
    return fit
