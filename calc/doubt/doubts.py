"""What each thing used in setting the angle is known to: every doubt once, with its default and its source.

A doubt is a half-width: the true value lies within ± of the one told, anywhere alike (GUM 4.3.7). Some are
told over a length, such as an indicator's run over the length swept; together they make an angle.

A way lists in FEELS which of these it feels. The ids are entries, and the keys of the contributions in an
Estimate, so that a budget can name what it adds up.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from calc.doubt.asks import Ask
from calc.estimate import source_of

LENGTH = "length"
ANGLE = "angle"
COUNT = "count"
SHOP = "Common practice, no source."


@dataclass(frozen=True, slots=True)
class Doubt:
    """One thing that is not known exactly.

    name: what it is called where contributions are listed. asked: the words beside the entry. kind: "length"
    [mm], "angle" [rad] or "count" (of `unit`). default: by unit system. about: what it is, in one line.
    source: where the default comes from. most: the largest that makes sense [mm, rad or `unit`]. over: the
    length it is told over, None where it stands alone. better: what to do to make it smaller, and `gain`, how
    small it can then become [mm, rad or `unit`]; "" where nothing ordinary helps. steady: the same bar,
    top slide, lathe or piece brings the same error to every job, so that proving can learn it; else it is new
    at each set-up or reading. known: the same error where it is known, as a length with its sign over the
    same span (`calc.setting.known`), of which the ± is then what is left; None where none can be entered.
    """

    id: str
    name: str
    asked: str
    kind: str
    default: Mapping[str, str]
    about: str
    source: str = SHOP
    most: float = 5.0
    over: Ask | None = None
    unit: str = ""
    better: str = ""
    gain: float = 0.0
    steady: bool = False
    known: Ask | None = None

    @property
    def help(self) -> str:
        """What it is and where its default comes from."""
        return f"{self.about} {self.source}"


def _span(name: str, label: str, metric: str, inch: str, help: str, most: float = 2000.0) -> Ask:
    return Ask(name, label, LENGTH, {"mm": metric, "inch": inch}, help, least=1.0, most=most)


def _known(name: str, label: str, help: str) -> Ask:
    return Ask(name, label, LENGTH, {"mm": "0 mm", "inch": "0 in"}, help, least=-5.0, most=5.0)


SWEEP_LENGTH = _span(
    "setting.sweep_length", "Length indicated", "80 mm", "3 in", "How far the indicator runs."
)
SIDE_LENGTH = _span(
    "setting.side_length",
    "Top slide's side checked over",
    "80 mm",
    "3 in",
    "The length checked along the top slide's side.",
)
AXIS_LENGTH = _span(
    "setting.axis_length",
    "Lathe's own taper measured over",
    "100 mm",
    "4 in",
    "How far apart both ends of the parallel cut, or of the test bar, were measured.",
)
MASTER_LENGTH = _span(
    "setting.master_length",
    "Master or test bar indicated over",
    "50 mm",
    "2 in",
    "How far the indicator runs along the master or the test bar.",
)

EDGE_KNOWN = _known(
    "setting.edge_known",
    "Sine bar's working face known to be out by, over its length",
    "With its sign: + where the face stands further from the line of the rollers at the tailstock roller (on"
    " the surface plate: at the raised roller), − at the other. It is then taken off the stack.",
)
SIDE_KNOWN = _known(
    "setting.side_known",
    "Top slide's side known to be out of its travel by",
    "With its sign, over the length below: + where the side stands further out at its tailstock end: an"
    " indicator on the cross-slide goes in as the top slide is wound towards the headstock. It is then taken"
    " off what is set.",
)
AXIS_KNOWN = _known(
    "setting.axis_known",
    "Lathe known to turn a taper of, on diameter",
    "With its sign, over the length below: + where a parallel cut by the carriage comes out larger at its"
    " tailstock end, held as this work is held. It is then taken off what is set.",
)

_ALL = (
    Doubt(
        "setting.bar_give",
        "sine bar's centre distance",
        "Sine bar's centre distance known to ±",
        LENGTH,
        {"mm": "0.003 mm", "inch": "0.00012 in"},
        "Distance between the rollers' centres.",
        "IS 5359-1969 allows 0.003 mm on a sine bar of 100 mm (as quoted in a metrology text).",
        better="measure over the sine bar's rollers",
        gain=0.0005,
        steady=True,
    ),
    Doubt(
        "setting.roller_give",
        "rollers of the sine bar unlike",
        "Roller difference known to ±",
        LENGTH,
        {"mm": "0.002 mm", "inch": "0.00008 in"},
        "How far the difference of the rollers' diameters may be from what was entered.",
        "JIS B 7523-1977, grade 2: 2 µm between the two rollers of a sine bar.",
        better="measure both rollers of the sine bar against each other",
        gain=0.0005,
        steady=True,
    ),
    Doubt(
        "setting.edge_give",
        "working face against the rollers",
        "Sine bar's working face parallel to its rollers, over its length, ±",
        LENGTH,
        {"mm": "0.001 mm", "inch": "0.00004 in"},
        "The indicator runs along the working face; the rollers set the angle.",
        "IS 5359-1969: working faces parallel to 0.001 mm (as quoted in a metrology text).",
        better="check the sine bar's working face against its rollers on a surface plate",
        gain=0.0005,
        steady=True,
        known=EDGE_KNOWN,
    ),
    Doubt(
        "setting.packing_give",
        "packing",
        "Packing under the other roller known to ±",
        LENGTH,
        {"mm": "0.0025 mm", "inch": "0.0001 in"},
        "Counts only where there is packing under the other roller.",
        better="measure the packing",
        gain=0.0005,
        steady=True,
    ),
    Doubt(
        "setting.seating",
        "seating",
        "Each joint in a stack seats to ±",
        LENGTH,
        {"mm": "0.001 mm", "inch": "0.00004 in"},
        "Blocks wrung together; drills and leaves wiped and pressed.",
        most=1.0,
    ),
    Doubt(
        "setting.sweep_give",
        "indicator's run",
        "Indicator reads the same at both ends to ±",
        LENGTH,
        {"mm": "0.002 mm", "inch": "0.0001 in"},
        "The difference between the two ends of its run: one division of a dial test indicator.",
        over=SWEEP_LENGTH,
        better="use a finer indicator",
        gain=0.0005,
    ),
    Doubt(
        "setting.side_give",
        "top slide's side against its travel",
        "Top slide's side parallel to its travel to ±",
        LENGTH,
        {"mm": "0.005 mm", "inch": "0.0002 in"},
        "The sine bar lies against the side; the tool follows the travel. Fix an indicator to the"
        " cross-slide and"
        " wind the top slide past it.",
        over=SIDE_LENGTH,
        better="check the top slide's side against its travel",
        gain=0.001,
        steady=True,
        known=SIDE_KNOWN,
    ),
    Doubt(
        "setting.axis_give",
        "work's axis against the bed",
        "Lathe turns parallel, on diameter, to ±",
        LENGTH,
        {"mm": "0.005 mm", "inch": "0.0002 in"},
        "How far the work's axis lies out of line with the bed: what a parallel cut differs by at its ends.",
        over=AXIS_LENGTH,
        better="turn a test piece parallel and measure both ends",
        gain=0.002,
        steady=True,
        known=AXIS_KNOWN,
    ),
    Doubt(
        "setting.tool_height",
        "tool height",
        "Tool at centre height to ±",
        LENGTH,
        {"mm": "0.1 mm", "inch": "0.004 in"},
        "Above or below: either way the taper comes out shallower; a shank hollow, a bore proud in its"
        " middle.",
        better="set the tool's height with a test cut across the face",
        gain=0.02,
    ),
    Doubt(
        "setting.temperature",
        "one end warmer",
        "One end warmer than the other by up to ±",
        COUNT,
        {"mm": "3", "inch": "3"},
        "In °C (1 °C is 1.8 °F), at the last cut or when measured. A part warm all through grows, but keeps"
        " its"
        " angle.",
        most=200.0,
        unit="°C",
        better="let the work cool before the last cut and before measuring",
        gain=1.0,
    ),
    Doubt(
        "setting.dial_give",
        "indicator's own error",
        "Indicator's own error over its run ±",
        LENGTH,
        {"mm": "0.003 mm", "inch": "0.0001 in"},
        "How far an indicator may be off over the range it is used in.",
        better="check the indicator against a block of the size it is to read",
        gain=0.001,
    ),
    Doubt(
        "setting.plunger_give",
        "plunger out of square",
        "Plunger or stylus square to ±",
        ANGLE,
        {"mm": "1°", "inch": "1°"},
        "An indicator out of square reads long by 1 / cosine.",
        most=0.5,
        better="set the plunger square with a small square",
        gain=0.00436,
    ),
    Doubt(
        "setting.play_give",
        "play and tightening",
        "Tightening moves the top slide by ±",
        LENGTH,
        {"mm": "0.002 mm", "inch": "0.0001 in"},
        "What is left unseen of the top slide's shift when it is clamped and of the play in its ways.",
        over=SIDE_LENGTH,
        better="check once more after tightening",
        gain=0.0005,
    ),
    Doubt(
        "setting.graduation_give",
        "degree scale",
        "Degree scale set to ±",
        ANGLE,
        {"mm": "0.1°", "inch": "0.1°"},
        "A fair reading of a scale divided in degrees, its own error with it.",
        most=0.5,
    ),
    Doubt(
        "setting.travel_give",
        "travel",
        "Travel known to ±",
        LENGTH,
        {"mm": "0.02 mm", "inch": "0.001 in"},
        "A handwheel's graduated collar, backlash taken up from one direction.",
        better="read the travel by a second indicator or against a block",
        gain=0.005,
    ),
    Doubt(
        "setting.master_give",
        "the master",
        "Master or test bar: own taper out by, on diameter, ±",
        LENGTH,
        {"mm": "0.002 mm", "inch": "0.0001 in"},
        "The master's or test bar's error over the length indicated.",
        over=MASTER_LENGTH,
        steady=True,
    ),
    Doubt(
        "setting.lengths_give",
        "lengths",
        "Lengths measured to ±",
        LENGTH,
        {"mm": "0.2 mm", "inch": "0.01 in"},
        "By rule or calliper.",
        better="measure the length by calliper",
        gain=0.05,
    ),
    Doubt(
        "setting.true_give",
        "test bar or master off its axis",
        "Test bar or master leans off its axis by ±",
        LENGTH,
        {"mm": "0.002 mm", "inch": "0.0001 in"},
        "What is left after the mean of two runs, 180° apart.",
        over=MASTER_LENGTH,
        better="indicate twice, 180° apart, and split the difference",
        gain=0.0005,
    ),
    Doubt(
        "setting.dial_height_give",
        "indicator off centre height",
        "Indicator at centre height to ±",
        LENGTH,
        {"mm": "0.2 mm", "inch": "0.01 in"},
        "Off centre height a cone's side is curved and seems steeper.",
        better="set the indicator's stylus by a centre",
        gain=0.05,
    ),
    Doubt(
        "setting.centre_give",
        "where the centres bear",
        "Each plain centre bears, along the work, within ±",
        LENGTH,
        {"mm": "1 mm", "inch": "0.04 in"},
        "Tilted, a plain centre bears at the mouth on one side and deep on the other. Ball centres do not.",
        better="use ball centres",
        gain=0.05,
    ),
    Doubt(
        "setting.collar_give",
        "each collar measured",
        "Each collar measured to ±",
        LENGTH,
        {"mm": "0.003 mm", "inch": "0.0001 in"},
        "Micrometer on the collar's larger edge.",
        better="measure each collar three times and take the mean",
        gain=0.0015,
    ),
    Doubt(
        "setting.collar_left",
        "collars' difference brought right",
        "Collars' difference brought right to ±",
        LENGTH,
        {"mm": "0.005 mm", "inch": "0.0002 in"},
        "What is still missing when the last correction counts as good.",
        better="correct once more",
        gain=0.002,
    ),
)

DOUBTS: Mapping[str, Doubt] = {each.id: each for each in _ALL}
"""Every doubt by its id."""

COMMON = ("setting.tool_height", "setting.temperature")
"""What every way leaves to the cut itself: added by the budget, not by a way."""

PIECE = "piece "
"""How the key of a stack's piece begins: its number in the stack and its place in the drawer follow."""
SEATING = "setting.seating"


def doubt_of(key: str) -> Doubt | None:
    """The doubt that a contribution comes of; None for a piece of the drawer and for what was seen."""
    return DOUBTS.get(SEATING if key.startswith(SEATING) else source_of(key))


def is_steady(key: str) -> bool:
    """Whether the same error comes again with the same things: pieces are steady, each with itself."""
    doubt = doubt_of(key)
    return key.startswith(PIECE) if doubt is None else doubt.steady
