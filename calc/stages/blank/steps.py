"""How the blank is made: steps in order, with the reason where order matters, and cautions."""

from __future__ import annotations

from calc.machining.blank import DRAWBAR, TANG
from calc.quantities import shown_length
from calc.sheet import Caution, Step, same
from calc.stages.blank.facts import END_LABELS, End, Planned
from calc.stages.common.shop import CHUCK_KEY, LONG_BAR, MANUAL, from_memory, long, rough
from calc.stages.taper.facts import TaperFacts


def steps(taper: TaperFacts, end: End, planned: Planned, system: str) -> list[Step]:
    """What is done, in the order of doing, in one system."""
    made, part, leave = planned.plan, planned.part, planned.leave
    bar = planned.bar.name if planned.bar else f"at least {rough(made.stock_least)[system]}"
    cut, whole = long(made.length)[system], long(made.finished_length)[system]
    held = f", {long(leave.holding)[system]} to hold it by" if leave.holding else ""
    faced = f", {long(leave.facing)[system]} to face off each end" if leave.facing else ""
    pilot = shown_length(planned.centre.drill.value)[system]
    mouth = shown_length(planned.centre.mouth.value)[system]
    shank, reach = rough(made.roughs[0].diameter)[system], long(made.roughs[0].length)[system]
    found = [
        _step("cut_off", "saw", f"Cut off {cut} of {bar} bar: {whole} finished{faced}{held}.", "blank.length")
    ]
    if end.kind == DRAWBAR:
        how = ", as Finishing says" if end.told else " for your drawbar"
        found.append(
            _step(
                "small_end",
                "ends",
                f"Face the small end, drill and tap it{how}, and open its mouth to 60°: that is the centre"
                " for all later cuts, and a tap's push cannot shift a finished taper in its hold.",
            )
        )
    else:
        centred = f"Face the small end and centre it: {pilot} pilot, mouth no wider than {mouth}."
        found.append(_step("small_end", "ends", centred, "blank.centre_hole"))
    on = "On that centre" if end.kind == DRAWBAR else "On the centre"
    turned = f"{on}, turn the shank to {shank} for {reach}, a cylinder."
    found.append(_step("rough", "rough", turned, "blank.rough_diameter", "blank.rough_length"))
    if end.kind == TANG:
        if part.end_length and part.end_diameter is not None:
            tang, length = shown_length(part.end_diameter)[system], long(part.end_length)[system]
            found.append(
                _step("tang_round", "rough", f"Turn the last {length} to {tang} at most, for the tang.")
            )
        found.append(
            _step(
                "flats",
                "flats",
                "Mill the tang's flats now, as Finishing says, before the taper is finished: there is metal"
                " to hold, the blank is stiff, and neither clamp nor cutter can mark a taper that is not"
                " there yet.",
            )
        )
    found.append(_step("taper", "cut", f"Turn the taper, {taper.name}, running on the same centre."))
    if planned.head:
        found.append(
            _step(
                "head",
                "finish",
                "Turn head and spigot in the same hold as the taper where you can:"
                " what is turned without letting go runs true.",
            )
        )
    if leave.holding:
        found.append(
            _step(
                "part_off",
                "part",
                "Cut off what it was held by, turn the part round in a sleeve or soft jaws, face to length.",
            )
        )
    return found


def _step(word: str, phase: str, text: str, *shows: str) -> Step:
    return Step(f"blank.{word}", phase, same(text), shows=shows)


def cautions(taper: TaperFacts, end: End, planned: Planned, system: str) -> list[Caution]:
    """What may hurt or spoil, the worst first."""
    found = [CHUCK_KEY, LONG_BAR]
    part = planned.part
    if planned.bar is None:
        found.insert(
            0, Caution("care", "None of the bars is thick enough.", "Name a thicker one, or leave less on.")
        )
    if not end.told:
        found.append(
            Caution(
                "care",
                f"No table here tells the {END_LABELS[end.kind]} of {taper.name}.",
                "The cone is planned to its own length; add what the end needs to the head or the length.",
            )
        )
    if part.reach is not None:
        crest = shown_length(part.gauge)[system]
        found.append(
            Caution(
                "note",
                f"Turned over the thread's crests, not the pitch line: {crest} at the gauge plane.",
                "The outside and the thread's length are from memory: check them against your pipe.",
            )
        )
    if part.shorter > 0.0 and end.kind == TANG:
        short = long(part.shorter)[system]
        found.append(
            Caution(
                "care",
                f"This shank is {short} shorter than the table's.",
                "Its tang may not reach the slot of a socket, and no drift will push it out.",
            )
        )
    return [*found, *from_memory(part.used, taper.name), MANUAL]
