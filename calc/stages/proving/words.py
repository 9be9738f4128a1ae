"""What the proving stage says: its line, and what to beware of."""

from __future__ import annotations

from calc.doubt.percent import percent
from calc.gauging.contradictions import Contradiction
from calc.gauging.judge import CHANGE, DONE
from calc.gauging.shape import by_tool_height, height_for
from calc.quantities import plus_minus_micrometres, shown_length, shown_micrometres
from calc.sheet import Caution
from calc.stages.proving.change_figures import renewed, swap_words, tap_words
from calc.stages.proving.facts import Proved, ProvingFacts
from calc.stages.proving.figures import LABELS
from calc.stages.proving.said import at, read_off, sided


def line(facts: ProvingFacts, system: str) -> str:
    """The answer in one line."""
    proved = facts.proved
    if proved is None:
        left = (
            f"leave {shown_length(facts.metal, 0.02)[system]} on the diameter for it" if facts.metal else ""
        )
        more = f"; {facts.rows.unfinished} observation not complete" if facts.rows.unfinished else ""
        return f"Nothing seen yet; {left}{more}"
    if proved.contradictions:
        return "What was seen contradicts itself: see below before changing anything."
    believed = proved.believed
    if believed is None or proved.record is None:
        return "The size is known, the angle not proved yet."
    across, wide = believed.mean * proved.part.on_diameter, believed.expanded * proved.part.on_diameter
    out = sided(across, shown_micrometres(abs(across), wide))[system]
    said = f"{out} {plus_minus_micrometres(wide)[system]} on diameter"
    verdict = proved.verdict
    if verdict is None:
        return said
    if verdict.decision == DONE:
        return f"Right ({percent(verdict.now)}), leave it: {said}"
    if verdict.decision != CHANGE:
        return f"Leave it alone ({percent(verdict.now)} right): {said}"
    change = _change_words(proved, system)
    return (
        f"{change[0].upper()}{change[1:]}: {percent(verdict.now)} to {percent(verdict.best.chance)} right;"
        f" now {said}"
    )


def _change_words(proved: Proved, system: str) -> str:
    verdict, anew, tap = proved.verdict, proved.anew, proved.tap
    if verdict is not None and verdict.best.id == "stack" and anew is not None:
        return swap_words(anew)
    if tap is not None and not renewed(proved):
        where = "" if tap.what == "tailstock" else f", {at(tap.at)[system]} from its pivot"
        return f"{tap_words(proved, tap)} by {read_off(abs(tap.reading))[system]}{where}"
    return "set it up anew"


def cautions(facts: ProvingFacts, system: str) -> list[Caution]:
    """Contradictions first, then surprises, shapes and metal that is missing."""
    found: list[Caution] = []
    proved = facts.proved
    if proved is None:
        return found
    found += [_contradiction(each, proved, system) for each in proved.contradictions]
    if proved.surprise:
        found.append(
            Caution(
                "care",
                "Further out than the setting allows for: look for swarf under a roller, a piece misread, a"
                " top slide that slipped, before you correct it.",
                "What was seen is believed; the lathe learns nothing steady from it.",
            )
        )
    found += _shapes(proved, system)
    for one in proved.seen:
        if one.row.way == "indicator_run" and one.angle is None:
            found.append(
                Caution(
                    "note",
                    "Run by the top slide (compound) an indicator sees nothing of the angle: the tool ran"
                    " along the same line.",
                )
            )
    size = proved.size
    if size is not None and size.least.value < 0.0 and proved.record is not None:
        short = shown_length(-size.least.value, 0.001)[system]
        found.append(
            Caution(
                "care",
                f"Brought right it will not clean up: {short} on diameter are missing at"
                " the end with least metal.",
                "A shank then goes further into its socket; face off its small end as"
                " far, if the length allows.",
            )
        )
    return found


def _contradiction(each: Contradiction, proved: Proved, system: str) -> Caution:
    """Two observations that cannot both be true, and what to do first."""
    pair = [proved.seen[place] for place in (each.first, each.second)]
    said = []
    for one, error in zip(pair, (each.first_error, each.second_error), strict=True):
        label = LABELS[one.row.way]
        across = error * proved.part.on_diameter
        if not error:
            said.append(f"{one.row.number + 1}. {label}: near right")
        else:
            size = sided(across, shown_micrometres(abs(across)))[system]
            said.append(f"{one.row.number + 1}. {label}: {size} on diameter")
    kinds = {one.row.way for one in pair}
    advice = []
    if "two_diameters" in kinds:
        rate = proved.part.cone.rate
        off = 0.4
        advice.append(
            f"{shown_length(off)[system]} of position is {shown_length(off * rate, 0.001)[system]} of"
            " diameter: measure at stops"
        )
    if "contact" in kinds:
        advice.append("wipe dry and blue again, thinly")
    if "rocking" in kinds:
        advice.append("feel again, both tapers wiped dry")
    if not advice:
        advice.append("measure both again")
    return Caution(
        "care",
        f"These contradict each other: {'; '.join(said)}. {'; '.join(advice).capitalize()}; then take out"
        " the row that was wrong.",
        "Nothing is worked out from them until then.",
        "contradiction",
    )


def _shapes(proved: Proved, system: str) -> list[Caution]:
    found: list[Caution] = []
    for one in proved.seen:
        if not one.shape:
            continue
        sag = shown_length(one.sag, one.sag / 3)[system]
        if not by_tool_height(one.shape, proved.part.form):
            why = "Not a wrong angle, nor the tool's height: spring of work or tool, or a worn top slide."
            found.append(Caution("care", f"The surface is {one.shape} by about {sag}.", why))
            continue
        height = height_for(one.sag, proved.part)
        tool = f", some {shown_length(height, height / 3)[system]} off" if height else ""
        found.append(
            Caution(
                "care",
                f"The surface is {one.shape} by about {sag}: the tool is off centre height{tool}.",
                "Set the tool to centre height before you touch the angle.",
            )
        )
    return found
