"""What to beware of at this very cut: what its numbers bring. Hazards of the work stand on its steps."""

from __future__ import annotations

from math import floor

from calc.machining import infeed, stiffness
from calc.machining.bites import least_travel
from calc.machining.boring import Boring
from calc.machining.handfeed import BRISK
from calc.machining.tool import nose_shift
from calc.sheet import Caution
from calc.stages.cutting.asks import LEAST_FEED
from calc.stages.cutting.facts import Cutting
from calc.stages.cutting.speed import speed_text
from calc.stages.cutting.words import along, floored, length, small

ROOM = 5.0
"""Least room between taper and jaws for the tool's corner [mm] (common practice, no source)."""
SEEN = 0.001
"""A shift by the nose that is worth a word [mm on radius]."""


def cautions(job: Cutting) -> list[Caution]:
    """What to beware of here; what the person has no part in is left out."""
    found: list[Caution] = []
    if not job.told.own_speeds and job.limit is not None:
        text = "The list of speeds that stands there is invented: put in this lathe's own."
        found.append(Caution("note", text))
    if job.turns is None and job.limit is not None:
        slowest = job.told.speeds.slowest
        found.append(
            Caution(
                "care",
                f"Every spindle speed entered is too fast: {slowest} r/min, and {job.limit:.0f} is wanted.",
                f"{speed_text(job.speed.lowest)[job.system]} is where to start with this tool.",
            )
        )
    if job.too_short and job.flank:
        found.append(
            Caution(
                "care",
                f"So short a travel is of no use here: {_length(job, least_travel(job.flank))} is the least.",
                "Clearance and overlap eat it up.",
            )
        )
    if job.too_fine:
        found.append(
            Caution("care", "Cuts so shallow are too many to be listed.", "Enter a greater depth of cut.")
        )
    if job.handle is not None and job.handle > BRISK:
        found.append(
            Caution(
                "care",
                f"{job.handle:.0f} turns of the handle a minute are too many for an even hand.",
                f"{_finest(job)}Common practice, no source.",
            )
        )
    found += _contradiction(job)
    if job.to_go is not None and job.to_go < 0.0:
        past = _length(job, infeed.stand_off(-job.to_go, job.cone.rate))
        way_out = f"Face {past} off the mouth, if the part may be so much shorter."
        if not job.internal:
            way_out = (
                f"The gauge plane has moved {past} towards the head: face that much off the small end, if the"
                " length allows."
            )
        over = _length(job, -2 * job.to_go)
        found.append(
            Caution(
                "care",
                f"Over-cut by {over} on diameter: nothing is left to take off. A gauge goes {past} past"
                f" home.",
                way_out,
            )
        )
    return [*found, *_tool(job), *_holding(job)]


def _contradiction(job: Cutting) -> list[Caution]:
    """A diameter and a stand-off that cannot both be true, with what to do about it."""
    now, off, wanted = job.told.now, job.told.stand_off, job.cone.large_diameter
    if now is None or off is None or wanted is None:
        return []
    by_gauge = infeed.depth_from_stand_off(off, job.cone.rate)
    by_diameter = infeed.depth_from_diameter(now, wanted, job.internal)
    if not infeed.disagreement(by_gauge, by_diameter, job.cone.rate):
        return []
    gauge, diameter = (_length(job, 2.0 * each) for each in (by_gauge, by_diameter))
    return [
        Caution(
            "care",
            f"Gauge and diameter contradict each other: still to go are {gauge} on diameter by the gauge,"
            f" {diameter} by the diameter. The gauge's is used.",
            "Wipe and deburr both, and read the diameter at the gauge plane. If they still disagree, the"
            " angle is out: prove it before the next cut.",
        )
    ]


def _finest(job: Cutting) -> str:
    """What feed a hand could still wind here, in words."""
    if job.handle is None:
        return ""
    step = 0.01 if job.system == "mm" else 0.0254  # rounded down, so that what is said will do
    feed = floor(job.told.feed * BRISK / job.handle / step + 1e-9) * step
    if feed < LEAST_FEED:
        return "Take a slower speed. "
    return f"Take a feed of {_length(job, feed)} per revolution or less, or a slower speed. "


def _tool(job: Cutting) -> list[Caution]:
    found: list[Caution] = []
    nose = job.told.nose
    if nose is not None and job.told.feed >= 2.0 * nose:
        found.append(
            Caution("care", "The feed is wider than the tool's nose: it cuts a thread.", "Feed finer.")
        )
    elif nose is not None and not job.begun:
        deeper = nose_shift(nose, job.cone.half_angle)
        said = f"Beside a shoulder the nose leaves a corner of {_length(job, nose)} radius."
        if deeper >= SEEN:
            shift = small(deeper)[job.system]
            said += f" Touched off on a cylinder, this taper comes out {shift} deeper on radius."
        found.append(
            Caution("note", said, "Along the taper the same point always cuts: the angle stays true.")
        )
    if job.speed.found.from_memory:
        found.append(Caution("note", "The speed to start from is from memory: begin slower if in doubt."))
    return found


def _holding(job: Cutting) -> list[Caution]:
    long, thin, told = job.whole.length, job.whole.small_diameter, job.told
    if long is None or not thin:
        return []
    practice = "Common practice, no source."
    if job.internal:
        bar = job.boring
        if bar is None:
            return []
        found = _boring_bar(job, bar)
        if bar.overhang / bar.bar > stiffness.BAR:
            found.append(
                Caution(
                    "care",
                    "The boring bar is long for its thickness: it springs and leaves the bore small.",
                    f"Up to 4 diameters for one of steel, 6 for carbide. Repeat the last cut without infeed"
                    f" (spring"
                    f" pass). {practice}",
                )
            )
        return found
    if told.overhang is None:
        return []
    found = []
    most = stiffness.CENTRED if told.on_centre else stiffness.FREE
    if told.overhang / thin > most:
        held = "on a centre" if told.on_centre else "free at its end"
        help = "a steady (steady rest) or shorter work" if told.on_centre else "a centre in its free end"
        found.append(
            Caution(
                "care",
                f"The overhang is {told.overhang / thin:.1f} times its small diameter, {held}: use {help}.",
                f"Past {most:.0f} it springs from the tool, chatters and comes out of true. {practice}",
            )
        )
    if told.overhang - long < ROOM:
        room = _length(job, told.overhang - long)
        found.append(
            Caution("care", f"Only {room} between taper and jaws.", "The tool's corner and a hand need room.")
        )
    return found


def _boring_bar(job: Cutting, bar: Boring) -> list[Caution]:
    """A bar too thick for the bore, or cuts too deep for the bar."""
    found = []
    most = along(bar.largest)[job.system]
    if bar.bar > bar.largest:
        found.append(
            Caution(
                "care",
                f"So thick a boring bar leaves the swarf (chips) no room: {most} is the largest that goes"
                f" in.",
                "Packed swarf jams it and scores the bore. Common practice, no source.",
            )
        )
    if bar.rubs:
        found.append(
            Caution(
                "care",
                "This boring bar springs from the lightest cut: the bore will not come true with it.",
                f"Take a thicker one, up to {most}, or let it overhang less.",
            )
        )
    elif job.told.depth > 1.05 * bar.rough or job.told.finish_depth > 1.05 * bar.fine:
        rough, fine = (_length(job, floored(each)) for each in (bar.rough, bar.fine))
        found.append(
            Caution(
                "care",
                f"These cuts are deep for this boring bar: it bears {rough} roughing, {fine} finishing.",
                "Deeper, it springs off the work and digs in where it can.",
            )
        )
    return found


def _length(job: Cutting, value: float) -> str:
    return length(value)[job.system]
