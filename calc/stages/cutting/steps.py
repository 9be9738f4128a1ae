"""What to do at the lathe, in order, and what to beware of."""

from __future__ import annotations

from math import floor

from calc.machining import infeed, stiffness
from calc.machining.bites import least_travel
from calc.machining.boring import Boring
from calc.machining.handfeed import BRISK
from calc.machining.tool import nose_shift
from calc.sheet import Caution, Step, same
from calc.stages.cutting.asks import LEAST_FEED
from calc.stages.cutting.facts import Cutting
from calc.stages.cutting.speed import speed_text
from calc.stages.cutting.words import along, floored, length, small

ROOM = 5.0
"""Least room between taper and jaws for the tool's corner [mm] (common practice, no source)."""
SEEN = 0.001
"""A shift by the nose that is worth a word [mm on radius]."""


def steps(job: Cutting) -> list[Step]:
    """The steps for this very job; nothing to cut leaves none."""
    if job.to_go is not None and job.to_go <= 0.0:
        return []
    found = [*_height(job), *_room(job)]
    if job.begun:
        found += _finishing(job)
    else:
        found += [*_start(job), *_roughing(job), *_next_bites(job)]
    return found


def _step(word: str, text: str, *shows: str, phase: str = "cut") -> Step:
    return Step(f"cutting.{word}", phase, same(text), shows=shows)


def _length(job: Cutting, value: float) -> str:
    return length(value)[job.system]


def _height(job: Cutting) -> list[Step]:
    if job.begun:
        return []
    text = (
        "Set the tip to the point of a centre in the tailstock, or pinch a thin rule between tip and bar:"
        " upright is right; its top leaning towards you says too low, away from you too high."
    )
    if job.internal:
        text = "Set the boring tool's tip to the point of a centre in the tailstock, with the bar fully out."
    return [_step("tool_height", text, "cutting.tool_height", phase="set")]


def _room(job: Cutting) -> list[Step]:
    if job.begun:
        return []
    fixed = "Lock the carriage. " if job.by_slide else ""
    parts = "bar, tool post and slide" if job.internal else "tool post and slide"
    moved = "Wind the slide from end to end of the cut" if job.by_slide else "Run the carriage over the cut"
    by_hand = f"{moved}, spindle stopped, turning the chuck by hand: {parts} must clear jaws"
    ends = " and tailstock" if job.told.on_centre else ""
    return [_step("clearance", f"{fixed}{by_hand}{ends} all the way round.", phase="set")]


def _start(job: Cutting) -> list[Step]:
    if job.turns is None:
        return []
    where = job.deep_end
    touch = (
        f"Start the spindle at {job.turns} turns/min. At the {where} bring the tool in until it just touches"
    )
    found = [_step("touch", f"{touch}; set the cross-slide's dial to 0 there.", "cutting.rpm")]
    if job.handle is not None and job.count is not None:
        seconds = f"{job.count.seconds:.1f} s"
        wound = (
            f"Feed by the slide's handle with both hands, never stopping: {job.count.words} every {seconds}."
        )
        found.append(_step("feed", wound, "cutting.handle_rate"))
    elif not job.by_slide:
        fed = f"Feed the carriage at {_length(job, job.told.feed)} for a turn of the work."
        found.append(_step("feed", fed))
    return found


def _roughing(job: Cutting) -> list[Step]:
    rough = [cut for cut in job.cuts if not cut.finishing]
    if not rough:
        return [_step("depths", f"Nothing to rough. {_depths(job)}.", "cutting.passes")] if job.cuts else []
    found = f"{_depths(job)}, each from the {job.deep_end} on. Wind back clear of the work between."
    if rough[0].reach < (job.whole.length or 0.0):
        found += f" The first runs out of metal after {along(rough[0].reach)[job.system]}."
    return [_step("depths", found, "cutting.passes")]


def _depths(job: Cutting) -> str:
    """The cuts and how far the cross-slide goes for each, on its dial."""
    rough = [cut for cut in job.cuts if not cut.finishing]
    fine = [cut for cut in job.cuts if cut.finishing]
    sense = "away from the axis" if job.internal else "towards the axis"
    words = []
    for kind, cuts in (("roughing", rough), ("finishing", fine)):
        if cuts:
            each = _length(job, job.told.dial(cuts[0].depth))
            count = f"{len(cuts)} {kind} cuts of {each}" if len(cuts) > 1 else f"one {kind} cut of {each}"
            last = cuts[-1].depth
            if last < 0.999 * cuts[0].depth:
                count += f", the last {_length(job, job.told.dial(last))}"
            words.append(count)
    return f"Cross-slide {sense}, by its dial: {', then '.join(words)}"


def _next_bites(job: Cutting) -> list[Step]:
    if job.bites is None or len(job.bites.spans) == 1:
        return []
    bed = _length(job, job.bites.along_bed(job.cone.half_angle))
    cross = _length(job, job.told.dial(job.bites.cross_slide(job.cone.half_angle)))
    # Along the cone from where cutting begins: outside towards the thick end, in a bore towards the thin one.
    towards = "small" if job.internal else "large"
    sense = "towards the axis" if job.internal else "away from the axis"
    return [
        _step(
            "first_bite",
            "Finish the first bite before the next, its last cut without stopping. Leave the angle alone.",
        ),
        _step(
            "next_bite",
            f"Next bite: wind the slide back, unlock the carriage, move it {bed} to the {towards} end (by a"
            f" stop or an indicator) and lock it. The cross-slide goes {sense} by {cross} on its dial.",
            "cutting.bites",
        ),
        _step(
            "pick_up",
            "Pick up without a step: blue the last few millimetres of the finished part thinly. Spindle"
            " turning, bring the tool in there until it just wipes the blue and cuts no metal; that dial"
            " reading is the size. Back out, rough down to it in the same cuts, and finish to it.",
        ),
    ]


def _finishing(job: Cutting) -> list[Step]:
    if job.to_go is None or not job.cuts:
        return []
    cuts = job.cuts
    counted = f"{_depths(job)}; counted from where the tool last cut."
    found = [_step("depths", counted, "cutting.cross_slide_to_go")]
    if job.by_slide and job.cone.half_angle > 0.0:
        each = cuts[-1].depth
        advance = _length(job, infeed.slide_advance(each, job.cone.half_angle))
        back = _length(job, infeed.along_bed(each, job.cone.half_angle))
        towards, other = ("large", "small") if job.internal else ("small", "large")
        finer = (
            f"Such a finishing cut finer than by the dial, cross-slide locked: the slide {advance} to the"
            f" {towards} end, then the carriage {back} to the {other} end, and lock it. End each move in"
            " the same direction."
        )
        found.append(_step("finer", finer, "cutting.slide_to_go"))
    if job.bites and len(job.bites.spans) > 1:
        alike = "In bites: the same depth in every bite, each picked up through a film of blue."
        found.append(_step("bites_alike", alike))
    return found


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
                f"Every speed told is too fast: {slowest} turns/min, and {job.limit:.0f} is wanted.",
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
        found.append(Caution("care", "The cuts told are too many to be listed.", "Rough deeper."))
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
        found.append(
            Caution(
                "care",
                f"Nothing more to take off: it is over by {_length(job, -2 * job.to_go)} on diameter.",
                f"A gauge goes {past} past home. Facing as much off may save it, if its length allows.",
            )
        )
    return [*found, *_tool(job), *_holding(job), *_always(job)]


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
    return f"Take a feed of {_length(job, feed)} a turn of the work or less, or a slower speed. "


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
            said += f" Touched on along a cylinder, this flank comes out {shift} deeper on radius."
        found.append(
            Caution("note", said, "Along the flank always the same point cuts: the angle stays true.")
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
                    "The boring bar is long for its thickness: it springs and leaves the bore tight.",
                    f"Up to 4 diameters in steel, 6 in carbide. Repeat the last cut unchanged. {practice}",
                )
            )
        return found
    if told.overhang is None:
        return []
    found = []
    most = stiffness.CENTRED if told.on_centre else stiffness.FREE
    if told.overhang / thin > most:
        held = "on a centre" if told.on_centre else "free at its end"
        help = "a steady or shorter work" if told.on_centre else "a centre in its free end"
        found.append(
            Caution(
                "care",
                f"It sticks out {told.overhang / thin:.1f} times its small diameter, {held}: use {help}.",
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
                f"So thick a boring bar leaves the chips no room: {most} is the thickest that goes in.",
                "Packed chips jam it and score the bore. Common practice, no source.",
            )
        )
    if bar.rubs:
        found.append(
            Caution(
                "care",
                "This boring bar springs from the lightest cut: the bore will not come true with it.",
                f"Take a thicker one, up to {most}, or let it stick out less.",
            )
        )
    elif job.told.depth > 1.05 * bar.rough or job.told.finish_depth > 1.05 * bar.fine:
        rough, fine = (_length(job, floored(each)) for each in (bar.rough, bar.fine))
        found.append(
            Caution(
                "care",
                f"The cuts told are deep for this boring bar: it bears {rough} rough, {fine} fine.",
                "Deeper, it springs off the work and digs in where it can.",
            )
        )
    return found


def _always(job: Cutting) -> list[Caution]:
    if not job.cuts or job.turns is None:
        return []
    hand = "Your hands wind beside turning jaws: guard down," if job.by_slide else "Guard down,"
    return [
        Caution(
            "danger",
            f"Chuck key out before the spindle starts. {hand} sleeves, rags, hair away.",
            "What a turning chuck catches it winds in. The machine's manual, the rules where you work and"
            " whoever is licensed for it come before anything said here.",
        ),
        Caution(
            "care",
            "No file or emery to bring the taper to size; stone burrs off with the spindle stopped.",
            "Both take off where they please: the angle goes, and a hand works beside turning jaws.",
        ),
    ]
