"""What to do at the lathe: tool and room, roughing, then the last cuts once the taper is proved."""

from __future__ import annotations

from collections.abc import Sequence

from calc.machining import infeed
from calc.machining.passes import Cut
from calc.sheet import Step, same
from calc.stages.cutting.facts import Cutting
from calc.stages.cutting.words import along, length

RULE_TELLS = (
    "or pinch a thin steel rule between tip and work: upright is right; its top leaning towards the tool"
    " says too"
    " low, away from it too high"
)


def steps(job: Cutting) -> list[Step]:
    """The steps for this job, in its own system; where nothing is left to cut it may be measured again."""
    if job.to_go is not None and job.to_go <= 0.0:
        return [_measure(job)]
    if job.begun:
        found = _last_cuts(job, job.cuts)
    else:
        first = _before_proving(job)
        found = [*_height(job), *_room(job), *_start(job), *_to_prove(job, job.cuts[:first])]
        found += _last_cuts(job, job.cuts[first:])
    return [*found, *_next_sections(job), _measure(job)]


def _step(
    word: str,
    text: str,
    *shows: str,
    phase: str = "cut",
    order: int = 50,
    cautions: tuple[str, ...] = (),
    asks: tuple[str, ...] = (),
) -> Step:
    return Step(f"cutting.{word}", phase, same(text), cautions, asks, shows, order=order)


def _length(job: Cutting, value: float) -> str:
    return length(value)[job.system]


def _height(job: Cutting) -> list[Step]:
    square = "The swing has turned the tool with it: set it square to the work again. "
    square = square if job.by_slide else ""
    text = f"{square}Set its tip to the point of a centre in the tailstock, {RULE_TELLS}."
    if not job.by_slide:
        text = f"Set the tool's tip to the point of a centre in the tailstock, {RULE_TELLS}."
    if job.internal:
        text = (
            f"{square}Set the boring tool's tip to the point of a centre in the tailstock, the boring bar"
            f" out as far"
            " as it will be."
        )
    shown = ("cutting.tool_height", "cutting.boring_bar_most") if job.internal else ("cutting.tool_height",)
    return [_step("tool_height", text, *shown, phase="set", order=70, cautions=("stopped",))]


def _room(job: Cutting) -> list[Step]:
    parts = "boring bar, tool post and top slide" if job.internal else "tool post and top slide"
    if not job.by_slide:
        parts = parts.replace("top slide", "slides")
    moved = "wind the top slide (compound)" if job.by_slide else "run the carriage by hand"
    fixed = "Lock the carriage. " if job.by_slide else ""
    ends = " and tailstock" if job.told.on_centre else ""
    text = (
        f"{fixed}Spindle stopped: {moved} from end to end of the cut, rotating the work by hand: {parts}"
        f" must clear the {'carrier (dog)' if job.between_centres else 'jaws'}{ends} all the way round."
    )
    hazards: tuple[str, ...] = ("stopped", "handle") if job.by_slide else ("stopped",)
    hazards += ("carrier",) if job.between_centres else ()
    return [_step("clearance", text, phase="set", order=80, cautions=hazards)]


def _start(job: Cutting) -> list[Step]:
    if job.turns is None:
        return []
    touch = (
        f"Spindle speed {job.turns} r/min. Touch off at the {job.deep_end} and set the cross-slide's collar"
        f" to zero"
        " there."
    )
    found = [_step("touch", touch, "cutting.rpm", cautions=("swarf",))]
    if job.handle is not None and job.count is not None:
        seconds = f"{job.count.seconds:.1f} s"
        wound = (
            "Feed by the top slide's handle (crank) with both hands, without stopping:"
            f" {job.count.words} every {seconds}."
        )
        found.append(_step("feed", wound, "cutting.handle_rate", cautions=("handle",)))
    elif not job.by_slide:
        fed = f"Feed the carriage at {_length(job, job.told.feed)} per revolution."
        found.append(_step("feed", fed))
    return found


def _before_proving(job: Cutting) -> int:
    """How many cuts come before the taper is proved: as metal for it allows, else the roughing ones."""
    if job.proved_after is not None:
        return job.proved_after
    return sum(not cut.finishing for cut in job.cuts)


def _to_prove(job: Cutting, cuts: Sequence[Cut]) -> list[Step]:
    """The cuts before the taper is proved."""
    if not job.cuts:
        return []
    if not cuts:
        return [_step("depths", "Nothing to rough: what is left are the last cuts.", "cutting.passes")]
    if len(cuts) == 1:
        found = f"{_depths(job, cuts)}, from the {job.deep_end} on. Wind back clear of the work."
    else:
        found = f"{_depths(job, cuts)}, each from the {job.deep_end} on. Wind back clear of the work between."
    if cuts[0].reach < (job.whole.length or 0.0):
        it = "The first" if len(cuts) > 1 else "It"
        found += f" {it} runs out of metal after {along(cuts[0].reach)[job.system]}."
    return [_step("depths", f"{found} The rest waits until the taper is proved.", "cutting.passes")]


def _depths(job: Cutting, cuts: Sequence[Cut]) -> str:
    """These cuts, and how far the cross-slide goes for each, by its collar."""
    sense = "away from the axis" if job.internal else "towards the axis"
    words = []
    for kind in ("roughing", "finishing"):
        alike = [cut for cut in cuts if cut.finishing == (kind == "finishing")]
        if alike:
            each = _length(job, job.told.dial(alike[0].depth))
            count = f"{len(alike)} {kind} cuts of {each}" if len(alike) > 1 else f"one {kind} cut of {each}"
            last = alike[-1].depth
            if last < 0.999 * alike[0].depth:
                count += f", the last {_length(job, job.told.dial(last))}"
            words.append(count)
    return f"Cross-slide {sense}, by its collar: {', then '.join(words)}"


def _last_cuts(job: Cutting, cuts: Sequence[Cut]) -> list[Step]:
    """What waits until the taper is proved: all but the last cut, then the last."""
    if not cuts:
        return []
    begun = "; counted from where the tool last cut" if job.begun else ""
    found = []
    shown = "cutting.cross_slide_to_go" if job.begun else "cutting.passes"
    if len(cuts) > 1:
        found.append(
            _step("finish_cuts", f"{_depths(job, cuts[:-1])}{begun}.", shown, phase="finish", order=10)
        )
        begun = ""
    found += _finer(job, cuts[-1])
    last = _depths(job, cuts[-1:])
    found.append(
        _step(
            "last_cut",
            f"The very last cut: {last[0].lower()}{last[1:]}{begun}; then a spring pass, once more without"
            f" infeed. No"
            " file or abrasive to bring it to size: the angle goes.",
            # Nothing measured: the count of all cuts is no number for the one that is left.
            *((shown,) if job.begun else ()),
            phase="finish",
            order=30,
            cautions=("filing",),
        )
    )
    return found


def _finer(job: Cutting, cut: Cut) -> list[Step]:
    """A fine infeed by the top slide, where there is something to say it by."""
    if not job.begun or not job.by_slide or job.cone.half_angle <= 0.0:
        return []
    advance = _length(job, infeed.slide_advance(cut.depth, job.cone.half_angle))
    back = _length(job, infeed.along_bed(cut.depth, job.cone.half_angle))
    towards, other = ("large", "small") if job.internal else ("small", "large")
    text = (
        f"The last cut may go in finer than by the collar, cross-slide locked: the top slide (compound)"
        f" {advance} to"
        f" the {towards} end, then the carriage {back} to the {other} end, and lock it. End each move in the"
        f" same"
        " direction."
    )
    return [_step("finer", text, "cutting.slide_to_go", phase="finish", order=25)]


def _next_sections(job: Cutting) -> list[Step]:
    """The rest of a taper that is longer than the top slide's travel, a section at a time."""
    if job.bites is None or len(job.bites.spans) == 1:
        return []
    if job.begun:
        alike = "In sections: the same depth in every section, each picked up through a film of layout blue."
        return [_step("bites_alike", alike, phase="finish", order=32)]
    bed = _length(job, job.bites.along_bed(job.cone.half_angle))
    cross = _length(job, job.told.dial(job.bites.cross_slide(job.cone.half_angle)))
    # Along the cone from where cutting begins: outside towards the thick end, in a bore towards the thin one.
    towards = "small" if job.internal else "large"
    sense = "towards the axis" if job.internal else "away from the axis"
    return [
        _step(
            "first_bite",
            "This is the first section of the taper. Prove it and finish it before the next, its last cut"
            " without"
            " stopping. From then on leave the angle alone.",
            order=60,
        ),
        _step(
            "next_bite",
            f"Next section, spindle stopped: wind the top slide back, unlock the carriage, move it {bed} to"
            f" the {towards} end (by a"
            f" stop or an indicator) and lock it. The cross-slide goes {sense} by {cross} on its collar.",
            "cutting.bites",
            phase="finish",
            order=32,
            cautions=("stopped",),
        ),
        _step(
            "pick_up",
            "Pick up without a step: spindle stopped, put layout (marking-out) blue thinly on the end of the"
            " finished section. Spindle turning, bring the tool in there until it just wipes"
            " the blue and cuts no metal; that collar reading is the size. Back out, rough down to it in the"
            " same"
            " cuts, and finish to it.",
            phase="finish",
            order=33,
            cautions=("stopped",),
        ),
    ]


def _measure(job: Cutting) -> Step:
    gauge = "plug gauge" if job.internal else "ring gauge"
    where = "the bore's large diameter" if job.internal else "the diameter at the gauge plane (gage line)"
    text = (
        f"Spindle stopped, the work cold and wiped: see how far the taper {gauge} or a mating part stands"
        f" off from"
        f" home, or measure {where}. Enter it: the cuts still to come follow."
    )
    return _step(
        "measure",
        text,
        "cutting.cross_slide_to_go",
        phase="prove",
        order=95,
        cautions=("stopped", "warm"),
        asks=("cutting.stand_off", "cutting.diameter_now"),
    )
