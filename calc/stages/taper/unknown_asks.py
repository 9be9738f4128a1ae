"""The measures of an unknown taper, asked, each with its ±."""

from __future__ import annotations

from dataclasses import dataclass

from calc.cone import STEEPEST_RATE
from calc.doubt.asks import Ask
from calc.identify.evidence import Evidence, Measured, StandOff, TwoDiameters
from calc.sheet import same
from calc.stages.common.form import Form
from calc.stages.taper.choice import MOST
from calc.tables import ALL_SERIES, find_taper, sizes

MICROMETER = {"mm": "0.01 mm", "inch": "0.0005 in"}
PARALLELS = {"mm": "0.02 mm", "inch": "0.001 in"}
CALIPER = {"mm": "0.5 mm", "inch": "0.02 in"}
RATE_GIVE = 0.0002
END_GIVE, WHOLE_GIVE = 0.1, 0.5
"""± of a diameter at an edge and of a length by rule [mm]: common practice, no source."""
END_SAID = {"mm": "0.1 mm", "inch": "0.004 in"}
WHOLE_SAID = {"mm": "0.5 mm", "inch": "0.02 in"}
WANTED = "measure two diameters and their distance, or enter a taper or a stand-off"


@dataclass(frozen=True, slots=True)
class Measures:
    """What was entered: the evidence where there is enough, else what is wanted still."""

    evidence: Evidence | None
    wanted: str = ""


def ask(form: Form, internal: bool = False) -> Measures:
    """The measures, each with its ±; what cannot stand is said beside its field."""
    diameters = _ask_diameters(form)
    rate = _ask_rate(form)
    stand_off, wanted = (None, "") if internal else _ask_stand_off(form)
    end = form.number(
        Ask(
            "taper.end_diameter",
            "Diameter at the mouth, large end" if internal else "Diameter where the taper ends, large end",
            "length",
            least=0.01,
            most=MOST,
            help="If it can be got at: at the shoulder, the collar or the edge. Taken to"
            f" ± {END_SAID[form.system]}.",
        )
    )
    whole = form.number(
        Ask(
            "taper.whole_length",
            "Length of the whole taper",
            "length",
            least=0.1,
            most=MOST,
            help=f"If it can be seen where it starts and stops. Taken to ± {WHOLE_SAID[form.system]}.",
        )
    )
    if form.wrong:
        return Measures(None)
    if wanted or not (diameters or rate or stand_off or end):
        return Measures(None, wanted or WANTED)
    return Measures(
        Evidence(
            diameters,
            rate,
            stand_off,
            Measured(end, END_GIVE) if end else None,
            Measured(whole, WHOLE_GIVE) if whole else None,
        )
    )


def _ask_diameters(form: Form) -> TwoDiameters | None:
    large = form.number(Ask("taper.large_diameter", "Larger diameter", "length", least=0.1, most=MOST))
    small = form.number(
        Ask(
            "taper.small_diameter",
            "Smaller diameter",
            "length",
            least=0.1,
            most=MOST,
            help="Both anywhere on the taper, well apart.",
        )
    )
    apart = form.number(
        Ask("taper.length", "Distance between them, along the axis", "length", least=0.5, most=MOST)
    )
    give = form.number(
        Ask("taper.diameter_give", "Diameters to ±", "length", MICROMETER, least=0.0, most=10.0)
    )
    off = form.number(Ask("taper.length_give", "Distance to ±", "length", PARALLELS, least=0.0, most=100.0))
    if large is None or small is None or apart is None or give is None or off is None:
        return None
    if small > large:
        form.refuse(
            "taper.small_diameter",
            "This is larger than the larger diameter",
            "Swap the two, or measure again.",
        )
        return None
    if off >= apart:
        form.refuse("taper.length_give", "This is as much as the distance itself", "Enter a smaller ±.")
        return None
    return TwoDiameters(Measured(large, give), Measured(small, give), Measured(apart, off))


def _ask_rate(form: Form) -> Measured | None:
    rate = form.number(
        Ask(
            "taper.rate",
            "or taper on diameter (taper per foot)",
            "rate",
            most=STEEPEST_RATE,
            help="If it is all you have, or besides. For example 1:20, 0.602 in/ft or 5 %.",
        )
    )
    if rate is None:
        return None
    give = form.number(
        Ask("taper.rate_give", "Taper to ±", "rate", most=1.0, help="Empty: ± 0.02 % (0.0024 in/ft).")
    )
    if rate == 0:
        form.refuse("taper.rate", "A parallel part is no taper", "Enter the taper, or leave it empty.")
        return None
    return Measured(rate, RATE_GIVE if give is None else give)


def _ask_stand_off(form: Form) -> tuple[StandOff | None, str]:
    """The stand-off in a known socket, and what is wanted still."""
    proud = form.number(
        Ask(
            "taper.stand_off",
            "or stands out of a known socket by",
            "length",
            least=-1000.0,
            most=1000.0,
            help="From the socket's face to the large end of the taper; minus where it sinks in.",
        )
    )
    if proud is None:
        return None, ""
    give = form.number(
        Ask("taper.stand_off_give", "Stand-off to ±", "length", CALIPER, least=0.0, most=100.0)
    )
    fit = [(each.value, each.label) for each in ALL_SERIES if each.whole]
    series = form.pick(Ask("taper.socket_series", "The socket is", "choice", same(fit[0][0]), choices=fit))
    size = form.pick(
        Ask("taper.socket_size", "of size", "choice", choices=[(each, each) for each in sizes(series or "")])
    )
    socket = find_taper(series, size) if series and size else None
    if socket is None or give is None:
        return None, "choose the socket it was tried in"
    return StandOff(socket, Measured(proud, give)), ""
