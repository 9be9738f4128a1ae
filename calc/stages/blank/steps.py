"""How a shank's blank is made: steps in order, with the reason where order matters, and cautions."""

from __future__ import annotations

from dataclasses import dataclass

from calc.machining.blank import DRAWBAR, TANG
from calc.machining.stock import CentreHole
from calc.quantities import shown_length
from calc.sheet import Both, Caution, Step, same
from calc.stages.blank.facts import END_LABELS, End, Planned
from calc.stages.common.shop import from_memory, line, long, rough
from calc.stages.taper.facts import TaperFacts

SAME = 1e-6  # [mm]


@dataclass(frozen=True, slots=True)
class Around:
    """What other stages make of this blank.

    between_centres: the way of setting wants it between two centres. spigot: the largest the spigot may be
    [mm], which Finishing turns; None where none is wanted.
    """

    between_centres: bool = False
    spigot: float | None = None


def steps(taper: TaperFacts, end: End, planned: Planned, around: Around) -> list[Step]:
    """What is done, in the order of doing."""
    found = [_saw(planned), *_ends(end, planned, around), *_rough(taper, end, planned, around)]
    if end.kind == TANG:
        found.append(
            _step(
                "flats",
                "flats",
                same(
                    "Take the work out and mill the tang's flats now, before the taper is finished: there is"
                    " metal"
                    " to hold, the blank is stiff, and neither clamp nor cutter can mark a taper that is not"
                    " there"
                    " yet."
                ),
                cautions=("milling",),
            )
        )
        if not around.between_centres:  # else setting mounts it
            found.append(_back_again(planned, around))
    name = f", {taper.name}" if taper.standard is not None else ""
    cut = same(f"Turn the taper{name}{_on(taper, around)}.")
    found.append(_step("taper", "cut", cut, order=10))
    return [*found, *_head(planned, around), *_last(end, planned, around)]


def _saw(planned: Planned) -> Step:
    made, leave = planned.plan, planned.leave
    stock = rough(made.stock_least)
    named = line("at least {a}", a=stock) if planned.bar is None else same(planned.bar.name)
    text = "Saw off {a} of {b} bar stock: {c} finished"
    text += ", {d} facing allowance at each end" if leave.facing else ""
    text += ", {e} chucking allowance" if leave.holding else ""
    said = line(
        text + ".",
        a=long(made.length),
        b=named,
        c=long(made.finished_length),
        d=long(leave.facing),
        e=long(leave.holding),
    )
    return _step("cut_off", "saw", said, "blank.length", "blank.diameter", cautions=("long_bar",))


def pilot(hole: CentreHole) -> Both:
    """The centre drill's pilot; these drills go by millimetres (ISO 866), which stand beside the inches."""
    size = shown_length(hole.drill.value)
    return {"mm": size["mm"], "inch": f"{rough(hole.drill.value)['inch']} ({hole.drill.text} mm)"}


def _ends(end: End, planned: Planned, around: Around) -> list[Step]:
    """Facing and centring; both ends where both are wanted before the taper."""
    centre = planned.centre
    hole = line("{a} pilot, countersink no wider than {b}", a=pilot(centre), b=rough(centre.mouth.value))
    if end.kind == DRAWBAR:
        how = "" if end.told else " for your drawbar"
        text = (
            f"Chuck it with little overhang. Face the small end, drill and tap it{how}, and countersink its"
            f" mouth"
            " 60°: that is the centre for all later cuts, and a tap's push cannot shift a finished taper in"
            " its"
            " jaws."
        )
        found = [_step("small_end", "ends", same(text))]
    else:
        text = "Chuck it with little overhang. Face the small end and drill its centre hole: {a}."
        found = [_step("small_end", "ends", line(text, a=hole), "blank.centre_hole")]
    if around.between_centres or not planned.leave.holding:
        text = "Turn it end for end, face the other end and drill a centre hole there as well: {a}."
        if not planned.leave.holding:
            text = "Turn it end for end, face it to {b} and drill a centre hole there as well: {a}."
        found.append(
            _step("other_end", "ends", line(text, a=hole, b=long(planned.plan.finished_length)), order=60)
        )
    return found


def _held(planned: Planned, around: Around) -> tuple[str, tuple[str, ...]]:
    """How the work is held while it is turned, and the hazards of that."""
    if around.between_centres or not planned.leave.holding:
        where = "chucking allowance" if planned.leave.holding else "head, soft metal under its screw"
        return f"between centres, a carrier (dog) on the {where}", ("carrier", "centre")
    return "by its chucking allowance, the small end on the tailstock's centre", ("centre",)


def _rough(taper: TaperFacts, end: End, planned: Planned, around: Around) -> list[Step]:
    """A cylinder for the shank, the head's spare metal off it, and the tang's diameter."""
    part = planned.part
    shank = planned.plan.roughs[0]
    held, hazards = _held(planned, around)
    if taper.small_end == "headstock":
        held, hazards = "by its chucking allowance, the free end on the tailstock's centre", ("centre",)
    hold = f"Hold it {held}"
    if around.between_centres:
        hold += ". The tailstock is in line now: it is set over only for the taper"
    found = [_step("rough_hold", "rough", same(f"{hold}."), cautions=hazards)]
    found += _rough_shank(planned, shank.diameter, shank.length)
    if end.kind == TANG and part.end_length and part.end_diameter is not None:
        tang = line(
            "Turn the last {a} at the small end to {b} at most, for the tang.",
            a=long(part.end_length),
            b=rough(part.end_diameter),
        )
        found.append(_step("tang_round", "rough", tang))
    return found


def _rough_shank(planned: Planned, diameter: float, length: float) -> list[Step]:
    by = "by the carriage, the top slide (compound) left alone"
    shows = ("blank.rough_diameter", "blank.rough_length")
    if planned.head is None:
        said = line(f"Turn the shank parallel to {{a}} for {{b}}, {by}.", a=rough(diameter), b=long(length))
        return [_step("rough", "rough", said, *shows, cautions=("swarf",))]
    reach, thick = length + planned.head[0], planned.head[1] + planned.leave.rough
    if thick <= diameter + SAME:
        said = line(
            f"Turn shank and head parallel to {{a}} for {{b}}, {by}: so little is left to come off the head"
            " once the taper is done.",
            a=rough(diameter),
            b=long(reach),
        )
        return [_step("rough", "rough", said, *shows, cautions=("swarf",))]
    head = line(f"Turn shank and head parallel to {{a}} for {{b}}, {by}.", a=rough(thick), b=long(reach))
    said = line("Turn the shank parallel to {a} for {b}.", a=rough(diameter), b=long(length))
    return [
        _step("rough_head", "rough", head, cautions=("swarf",)),
        _step("rough", "rough", said, *shows, cautions=("swarf",)),
    ]


def _on(taper: TaperFacts, around: Around) -> str:
    if around.between_centres or taper.small_end == "headstock":
        return ""
    return ", running on the same centre"


def _back_again(planned: Planned, around: Around) -> Step:
    held, hazards = _held(planned, around)
    text = f"Put the work back {held}; clean the centre hole first."
    return _step("back_again", "set", same(text), cautions=hazards, order=60)


def _head(planned: Planned, around: Around) -> list[Step]:
    """The head, where it is not all spigot."""
    if planned.head is None or around.spigot is not None and planned.head[1] <= around.spigot + SAME:
        return []
    where = "At the same setting as the taper (same chucking)"
    if around.between_centres:
        where = "Between the same centres, the tailstock back in line"
    said = line(
        f"{where}, turn the head to {{a}} by the carriage: what is turned without taking the work out runs"
        f" true"
        " to the taper.",
        a=rough(planned.head[1]),
    )
    return [_step("head", "finish", said)]


def _last(end: End, planned: Planned, around: Around) -> list[Step]:
    if not planned.leave.holding:
        return []
    off = (
        "Take the work out and saw off the chucking allowance; or part it close to the jaws, the centre"
        " drawn back."
    )
    if around.between_centres:
        off = "Take the work out from between the centres and saw off the chucking allowance."
    held = "held in soft jaws"
    if end.shank is not None:
        held = "the shank in a sleeve in the headstock's spindle, or in soft jaws"
    face = f"Reverse the part, {held}. Face the head to length, {{a}} over all, and break its edges."
    if around.spigot is not None and end.kind != DRAWBAR:
        face += " If spigot metal was left, drill a centre hole in that end while it is held so."
    return [
        _step("part_off", "part", same(off), cautions=("parting",)),
        _step("to_length", "part", line(face, a=long(planned.plan.finished_length)), cautions=("sharp",)),
    ]


def _step(
    word: str, phase: str, text: Both, *shows: str, cautions: tuple[str, ...] = (), order: int = 50
) -> Step:
    return Step(f"blank.{word}", phase, text, cautions, shows=shows, order=order)


def cautions(taper: TaperFacts, end: End, planned: Planned, system: str) -> list[Caution]:
    """What may spoil this very part, the worst first."""
    found: list[Caution] = []
    part = planned.part
    if planned.bar is None:
        found.append(
            Caution("care", "None of the bar stock is thick enough.", "Enter thicker, or leave less on.")
        )
    if not end.told:
        found.append(
            Caution(
                "care",
                f"No table here gives the {END_LABELS[end.kind]} of {taper.name}.",
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
    return [*found, *from_memory(part.used, taper.name)]
