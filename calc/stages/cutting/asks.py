"""What the cutting stage asks: work and tool, this lathe, how deep, how far it has come."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from calc.cone import Cone
from calc.doubt.asks import Ask
from calc.machining.speeds import SpeedList, read_speeds
from calc.quantities import Reading, shown_length
from calc.sheet import same
from calc.stages.common.form import Form
from calc.tables.speeds import MATERIALS, TOOLS, start_feed

IDS = tuple(
    f"cutting.{name}"
    for name in (
        "material",
        "tool",
        "start_diameter",
        "diameter_now",
        "stand_off",
        "support",
        "overhang",
        "boring_bar",
        "speeds",
        "slide_travel",
        "slide_lead",
        "slide_division",
        "dial_reads",
        "feed",
        "depth",
        "finish_depth",
        "finish_cuts",
        "nose_radius",
    )
)
SHOP = "Common practice, no source."
LEAST_FEED = 0.005
"""The finest feed a turn of the work [mm] that may be told."""
COMMON_SPEEDS = "60, 100, 160, 250, 400, 630, 1000, 1600"
AS_READ = 0.005
"""How far a diameter [mm] may be rounded and still be the taper's own."""
FREE, CENTRE = "free", "centre"
DIAMETER, RADIUS = "diameter", "radius"


@dataclass(frozen=True, slots=True)
class CuttingEntries:
    """What was told [mm]; None where it is not known, could not be read or is not asked for this job."""

    material: str
    tool: str
    speeds: SpeedList
    feed: float
    depth: float
    finish_depth: float
    finish_cuts: int
    nose: float | None
    start: float | None
    now: float | None
    stand_off: float | None
    on_centre: bool
    overhang: float | None
    boring_bar: float | None
    travel: float | None
    lead: float | None
    division: float | None
    dial_on_diameter: bool
    own_speeds: bool
    own_depth: bool
    own_finish: bool

    def dial(self, depth: float) -> float:
        """What the cross-slide's dial shows [mm] for a depth on radius [mm]."""
        return 2.0 * depth if self.dial_on_diameter else depth


def ask(
    form: Form,
    cone: Cone | None,
    whole: Cone | None,
    internal: bool,
    by_slide: bool,
    small_outward: bool,
    start: float | None,
) -> CuttingEntries | None:
    """Ask; None where something needs mending.

    cone: as it is measured, to its gauge plane; whole: as it is cut, to the shoulder.
    by_slide: the taper is cut by winding the slide. small_outward: the small end is the free one. start: the
    diameter the blank is turned parallel to first [mm], where there is one.
    """
    material = form.pick(
        Ask("cutting.material", "Material", "choice", same("medium carbon steel"), choices=MATERIALS)
    )
    tool = form.pick(Ask("cutting.tool", "Tool", "choice", same("HSS"), choices=TOOLS))
    parallel = _start(form, cone, internal, start)
    now, stand_off = _progress(form, cone, internal)
    on_centre, overhang, bar = _holding(form, whole, internal, small_outward)
    form.group = "This lathe"
    speeds = _speeds(form)
    travel = lead = division = None
    if by_slide:
        travel = form.number(
            Ask(
                "cutting.slide_travel",
                "Top slide (compound) travel",
                "length",
                least=0.5,
                most=2000.0,
                help="From end to end, the gib strips still holding. Empty: not checked.",
            )
        )
        lead = form.number(
            Ask(
                "cutting.slide_lead",
                "Top slide travel per turn of the handle (screw lead)",
                "length",
                {"mm": "1 mm", "inch": "0.1 in"},
                least=0.1,
                most=25.4,
                help=SHOP,
            )
        )
        division = form.number(
            Ask(
                "cutting.slide_division",
                "Top slide collar, one division",
                "length",
                {"mm": "0.02 mm", "inch": "0.001 in"},
                least=0.0005,
                most=5.0,
                help=SHOP,
            )
        )
    reads = form.pick(
        Ask(
            "cutting.dial_reads",
            "Cross-slide's collar (dial) reads",
            "choice",
            same(RADIUS),
            choices=(
                (RADIUS, "radius: what the tool moves"),
                (DIAMETER, "diameter (direct reading): twice that"),
            ),
            help="If in doubt leave it at radius: a wrong guess then takes off too little, not too much.",
        )
    )
    form.group = "Cuts"
    feed = _feed(form, material, tool)
    depth, finish_depth, cuts = _cuts(form)
    nose = form.number(
        Ask(
            "cutting.nose_radius",
            "Tool nose radius",
            "length",
            {"mm": "0.4 mm", "inch": "1/64 in"},
            least=0.01,
            most=20.0,
            help=SHOP,
        )
    )
    form.group = ""
    if form.wrong or material is None or tool is None or speeds is None or feed is None:
        return None
    if depth is None or finish_depth is None or cuts is None or reads is None:
        return None
    return CuttingEntries(
        material=material,
        tool=tool,
        speeds=speeds,
        feed=feed,
        depth=depth,
        finish_depth=finish_depth,
        finish_cuts=int(cuts),
        nose=nose,
        start=parallel,
        now=now,
        stand_off=stand_off,
        on_centre=on_centre,
        overhang=overhang,
        boring_bar=bar,
        travel=travel,
        lead=lead,
        division=division,
        dial_on_diameter=reads == DIAMETER,
        own_speeds=form.given(SPEEDS.id),
        own_depth=form.given("cutting.depth"),
        own_finish=form.given("cutting.finish_depth"),
    )


def _start(form: Form, cone: Cone | None, internal: bool, start: float | None) -> float | None:
    """The parallel start: asked only where the cone has diameters to compare it with."""
    if cone is None or cone.large_diameter is None or cone.small_diameter is None:
        return None
    edge = cone.small_diameter if internal else cone.large_diameter
    usual = f"the {'small' if internal else 'large'} diameter"
    value = form.number(
        Ask(
            "cutting.start_diameter",
            "Diameter bored parallel first" if internal else "Diameter turned parallel first",
            "length",
            {} if start is None else shown_length(start),
            help=f"Before the taper is cut. Empty: {'as the blank is roughed' if start else usual}.",
            least=0.1,
            most=2000.0,
            one_number=start is not None,
        )
    )
    if start is not None and not form.given("cutting.start_diameter"):
        return start  # the default in words is rounded
    if value is not None and (value > edge + AS_READ if internal else value < edge - AS_READ):
        which = "smaller than the small" if internal else "larger than the large"
        form.refuse(
            "cutting.start_diameter",
            "the taper would not clean up",
            f"It must be {which} diameter of the taper.",
        )
    return value


def _progress(form: Form, cone: Cone | None, internal: bool) -> tuple[float | None, float | None]:
    if cone is None or cone.rate <= 0.0:
        return None, None
    now = None
    if cone.large_diameter is not None:
        now = form.number(
            Ask(
                "cutting.diameter_now",
                "Large diameter now" if not internal else "Bore, large diameter now",
                "length",
                least=0.1,
                most=2000.0,
                help="At the gauge plane (gage line), once the taper is cut along its whole length.",
                meanwhile=True,
            )
        )
    stand_off = form.number(
        Ask(
            "cutting.stand_off",
            "Gauge stands off by",
            "length",
            least=-100.0,
            most=500.0,
            help=f"How far the {'plug' if internal else 'ring'} gauge or a mating part stays from home; minus"
            " where it goes past.",
            meanwhile=True,
        )
    )
    return now, stand_off


def _holding(
    form: Form, cone: Cone | None, internal: bool, small_outward: bool
) -> tuple[bool, float | None, float | None]:
    """Whether a centre holds the free end, how far the work sticks out, how thick the boring bar is."""
    if cone is None or cone.length is None:
        return False, None, None
    if internal:
        bar = form.number(
            Ask(
                "cutting.boring_bar",
                "Boring bar diameter",
                "length",
                least=0.5,
                most=500.0,
                help="Empty: the largest that goes in.",
            )
        )
        if bar is not None and cone.small_diameter is not None and bar >= cone.small_diameter:
            form.refuse(
                "cutting.boring_bar",
                "the boring bar does not go in",
                "It must be thinner than the small end.",
            )
        return False, None, bar
    support = form.pick(
        Ask(
            "cutting.support",
            "Free end",
            "choice",
            same(CENTRE if small_outward else FREE),
            choices=((CENTRE, "on the tailstock's centre"), (FREE, "free (unsupported)")),
        )
    )
    overhang = form.number(
        Ask(
            "cutting.overhang",
            "Overhang from the jaws",
            "length",
            least=0.1,
            most=3000.0,
            help="Up to its free end. Empty: not checked.",
        )
    )
    if overhang is not None and overhang <= cone.length:
        form.refuse("cutting.overhang", "the taper would run into the jaws", "It must overhang further.")
    return support == CENTRE, overhang, None


def _read_speeds(text: str) -> Reading:
    found = read_speeds(text)
    return Reading(Fraction(found.slowest), float(found.slowest), found.text(), "")


SPEEDS = Ask(
    "cutting.speeds",
    "Spindle speeds, r/min (rpm)",
    "text",
    same(COMMON_SPEEDS),
    "From the plate on the headstock. The list that stands here is invented, in customary steps.",
    read=_read_speeds,
)


def _speeds(form: Form) -> SpeedList | None:
    entry = form.ask(SPEEDS)
    return read_speeds(entry.reading.understood) if entry.reading is not None else None


def _feed(form: Form, material: str | None, tool: str | None) -> float | None:
    low = start_feed(material, tool).lowest if material and tool else 0.0762
    metric, inch = f"{low:.2f}".rstrip("0"), f"{low / 25.4:.3f}".rstrip("0")
    return form.number(
        Ask(
            "cutting.feed",
            "Feed per revolution",
            "length",
            {"mm": f"{metric} mm", "inch": f"{inch} in"},
            least=LEAST_FEED,
            most=5.0,
            help="The low end of the feeds to start from, which finishes well.",
        )
    )


def _cuts(form: Form) -> tuple[float | None, float | None, str | None]:
    depth = form.number(
        Ask(
            "cutting.depth",
            "Depth of cut, roughing (on radius)",
            "length",
            {"mm": "0.5 mm", "inch": "0.02 in"},
            least=0.01,
            most=20.0,
            help=SHOP,
        )
    )
    finish = form.number(
        Ask(
            "cutting.finish_depth",
            "Depth of cut, finishing (on radius)",
            "length",
            {"mm": "0.1 mm", "inch": "0.004 in"},
            least=0.005,
            most=5.0,
            help=f"No thinner than the tool will cut cleanly. {SHOP}",
        )
    )
    cuts = form.pick(
        Ask(
            "cutting.finish_cuts",
            "Finishing cuts",
            "choice",
            same("2"),
            choices=tuple((str(number), str(number)) for number in range(1, 6)),
            help=f"Alike, so that the last springs as the one before. {SHOP}",
        )
    )
    return depth, finish, cuts
