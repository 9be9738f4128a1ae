"""The hazards of this job: each worded once, under its id, for whatever step it belongs to.

`JOB` stands once above the whole job: what holds at a lathe whatever is done. The others belong to particular
steps: a step names their ids, and its stage gives the cautions themselves.

All of it is common practice at machine tools, no single source, except that abrasive cloth is not to be
applied by hand: published guidance of the United Kingdom's Health and Safety Executive on emery cloth at
lathes (from memory). None of it takes the place of the machine's manual, the rules where the person works, or
the training and supervision they have there.
"""

from __future__ import annotations

from collections.abc import Iterable

from calc.sheet import Caution, Step

JOB = Caution(
    "danger",
    "Eyes covered, chuck key out, nothing loose. Spindle stopped and isolated before hands go in.",
    "No gloves, rings, loose sleeves, hair or rags near work that turns; the key leaves the chuck before your"
    " hand leaves the key. The machine's manual, the rules where you work, and the training and supervision"
    " you have there come before anything said here.",
    "job",
)
STOPPED = Caution(
    "danger",
    "Spindle stopped and isolated before hands, indicator or gauge go near the work.",
    "A lever knocked while you look at the indicator starts the chuck beside your hands.",
    "stopped",
)
SWARF = Caution(
    "danger",
    "Swarf is hot, sharp and stringy: break it with feed and depth of cut, stop the spindle, take it away"
    " with a hook or brush, never by hand.",
    "A string caught by the work pulls in whatever holds it.",
    "swarf",
)
HANDLE = Caution(
    "danger",
    "Your hands wind the top slide (compound) beside the jaws: try it by hand, spindle stopped, all the way.",
    "At the end of its travel the handle comes close to the chuck.",
    "handle",
)
PARTING = Caution(
    "danger",
    "Saw it off with the spindle stopped, or part it close to the jaws; never part work between centres or"
    " on a centre.",
    "The kerf closes on the blade, the work climbs over the tool and is thrown.",
    "parting",
)
CENTRE = Caution(
    "care",
    "Grease a dead centre and ease it as the work warms; a rotating (live) centre needs only the easing.",
    "Work grows as it warms: a centre that was right seizes, burns or bends the work.",
    "centre",
)
CARRIER = Caution(
    "danger",
    "The carrier (dog) turns with its tail out: nothing loose near it, and a guarded catch plate where there"
    " is one.",
    "It strikes or winds in what a smooth chuck would let pass.",
    "carrier",
)
SCREWED_CHUCK = Caution(
    "danger",
    "A chuck that is only screwed on may unscrew when the spindle runs in reverse or is braked hard: turn the"
    " tool over instead of the spindle.",
    "It comes off the nose while it turns.",
    "screwed_chuck",
)
FAR_SIDE = Caution(
    "danger",
    "On the far side the work rises past the tool: tool upside down with the spindle forward, or tool upright"
    " with the spindle reversed, and then only with a chuck that cannot unscrew.",
    "The wrong pair digs in, or lifts the carriage.",
    "far_side",
)
LONG_BAR = Caution(
    "danger",
    "No bar stands out past the headstock unsupported: saw the blank off first, or guide its whole length.",
    "A bar that whips bends at once and strikes whoever stands there.",
    "long_bar",
)
SHARP = Caution(
    "care",
    "Fresh edges cut: break them with a file, spindle or cutter stopped, before you handle the part.",
    "A milled flat or a turned shoulder leaves an edge like a knife.",
    "sharp",
)
KEEN = Caution(
    "care",
    "The disc's front edge is sharp and has to stay so: turn it with a stem, or screw one in, hold it by"
    " that, and keep your fingers off the edge.",
    "It bears on one line only while it is keen; pushed in by hand it slips and cuts.",
    "keen",
)
MILLING = Caution(
    "danger",
    "Clamp the work in a V-block or in jaws with a V, against a stop, and try it by hand before the cutter"
    " turns; brush swarf (chips) away only when the cutter stands still.",
    "Work held on two lines by flat jaws is pulled out by the cutter.",
    "milling",
)
FILING = Caution(
    "danger",
    "No abrasive cloth by hand on turning work. If it must be filed: handle on the file, left hand clear of"
    " the chuck, sleeves, rings, gloves and rags away.",
    "Cloth winds in and takes the hand with it; a file thrown by the jaws comes back.",
    "filing",
)
WARM = Caution(
    "care",
    "Measure and blue it cold: let the work come to the temperature of gauge and room first.",
    "Warm work reads large, and one end warmer than the other reads as taper.",
    "warm",
)
BLUE = Caution(
    "care",
    "Keep engineer's blue off skin and food, and wipe all of it off before the next cut.",
    "It does not dry, stains for days, and hides what the next test should show.",
    "blue",
)
HAZARDS: dict[str, Caution] = {
    each.id: each
    for each in (
        JOB,
        STOPPED,
        SWARF,
        HANDLE,
        PARTING,
        CENTRE,
        CARRIER,
        SCREWED_CHUCK,
        FAR_SIDE,
        LONG_BAR,
        SHARP,
        KEEN,
        MILLING,
        FILING,
        WARM,
        BLUE,
    )
}
"""Every hazard by its id."""


def cautions_of(steps: Iterable[Step]) -> list[Caution]:
    """The cautions that these steps name, each once, in the order first named; `JOB` stands above all."""
    named = dict.fromkeys(name for step in steps for name in step.cautions)
    return [HAZARDS[name] for name in named if name in HAZARDS and name != JOB.id]
