"""What the proving stage asks beside the observations themselves."""

from __future__ import annotations

from calc.doubt.asks import Ask
from calc.gauging.record import AFRESH, TAPPED, UNCHANGED
from calc.sheet import Field, same
from calc.stages.common.form import Form
from calc.stages.common.metal import ASK_LAST_CUT, LAST_CUT
from calc.stages.common.taught import ALLOW, LEAVE_OUT, MARK, SINCE, USE
from calc.stages.proving.facts import ProvingEntries

TAP, TAP_AT = "proving.tap", "proving.tap_at"
GAUGE = "proving.gauge_give"
WARMER = "proving.warmer"
SINE_HEIGHT, PLAIN_HEIGHT = "proving.sine_height", "proving.plain_height"
IDS = (SINCE, TAP, TAP_AT, LAST_CUT, GAUGE, WARMER, USE, MARK, SINE_HEIGHT, PLAIN_HEIGHT)
SHOP = (GAUGE, TAP_AT, LAST_CUT, USE, MARK)
LEARNED = "What proved cuts have taught"
PLAIN = "Plain questions"
LONGEST_MARK = 60

_SINCE = Ask(
    SINCE,
    "Since the last proved cut of this job",
    "choice",
    same(AFRESH),
    "What was seen of the last cut counts on where the setting still stands.",
    (
        (AFRESH, "it was set up anew, or there was none"),
        (TAPPED, "it was tapped"),
        (UNCHANGED, "it was left alone"),
    ),
    meanwhile=True,
)
_TAP = Ask(
    TAP,
    "Indicator moved by, in the tap",
    "length",
    help="Above 0 towards steeper. If left empty: as was advised.",
    least=-5.0,
    most=5.0,
    meanwhile=True,
)
_TAP_AT = Ask(
    TAP_AT,
    "Indicator for the tap, from the pivot",
    "length",
    {"mm": "100 mm", "inch": "4 in"},
    "Against the side of the top slide (compound), as far out from its pivot as"
    " it reaches: the further, the finer.",
    least=10.0,
    most=500.0,
)
_GAUGE = Ask(
    GAUGE,
    "Gauge's own taper good to ±, on diameter",
    "length",
    {"mm": "0.001 mm", "inch": "0.00004 in"},
    "The ring, plug or socket that it is tried in, over the taper's length. Common practice, no source.",
    most=0.5,
)
_WARMER = Ask(
    WARMER,
    "Part warmer than the gauge by",
    "count",
    help="Kelvin, which are °C of difference (1 K is 1.8 °F). Then what that does to a stand-off is shown.",
    most=200.0,
    unit="K",
)
_USE = Ask(
    USE,
    "What was learned",
    "choice",
    same(ALLOW),
    "Allowed for where the set-ups come out to one side more surely than not.",
    ((ALLOW, "allow for it"), (LEAVE_OUT, "leave it out")),
)
_SINE = Ask(
    SINE_HEIGHT,
    "A sine bar's angle, from the height under its roller",
    "length",
    help="The bar is that of the setting.",
    most=1000.0,
)
_PLAIN = Ask(
    PLAIN_HEIGHT,
    "A stack for a plain height",
    "length",
    help="From the drawer: to set a height gauge, an angle plate, a stop.",
    most=1000.0,
)


def ask(form: Form, any_history: bool) -> ProvingEntries | None:
    """Ask; None where something needs mending."""
    since = form.pick(_SINCE) or AFRESH
    tap = form.number(_TAP) if since == TAPPED else None
    form.group = "What it is proved with"
    at, last, gauge = (form.number(each) for each in (_TAP_AT, ASK_LAST_CUT, _GAUGE))
    warmer = form.number(_WARMER)
    form.group = LEARNED
    form.pick(_USE)
    _mark(form)
    form.group = PLAIN
    sine, plain = form.number(_SINE), form.number(_PLAIN)
    form.group = ""
    if at is None or last is None or gauge is None or form.wrong:
        return None
    return ProvingEntries(since, tap, at, last, gauge, warmer, sine, plain)


def _mark(form: Form) -> None:
    """A free text: another one starts afresh what was learned of slide and axis."""
    typed = form.entries.get(MARK, "").strip()[:LONGEST_MARK]
    field = Field(
        MARK,
        "Top slide and headstock last seen to",
        "text",
        typed,
        help=(
            "A date or a word. After scraping the top slide, new gib strips or aligning the headstock enter"
            " another:"
            " what was learned of them starts afresh. The bar starts afresh by itself"
            " when its length is entered anew."
        ),
        read=f"read as {typed}" if typed else "",
    )
    form.put(field, typed or None)
