"""The settled words of the trade stay settled: what a card must not say bare, in both systems, by every way.

The list is the house's own wording, settled with what machinists read in handbooks; it is no published list.
"""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from calc.demo import demo_request
from calc.job import work, work_text
from calc.setting import WAYS
from generated_requests import generated
from shown_words import texts

CORPUS = Path(__file__).parent / "corpus"
SETTLED = {
    "top slide or cross-slide": r"(?<!top )(?<!Top )(?<!cross-)(?<!Cross-)\bslide\b(?! fit| the stand)",
    "roller, dowel pin, taper pin": r"(?<!dowel )(?<!Dowel )(?<!taper )(?<!Taper )\bpins?\b",
    "zero, or 0": r"\bnoughts?\b",
    "entered, given, shown": r"\btold\b",
    "surface of the taper, along the taper": r"\bflanks?\b",
    "section, or cut": r"\bbites?\b",
    "backlash": r"\bno play\b|\bplay (?:of|in) (?:the|its) (?:screw|nut|dial|handle|collar)",
    "r/min (rpm)": r"turns/min",
    "shallow": r"\bflatter\b|\btoo flat\b",
    "check, correct": r"\bmend(?:s|ed|ing)?\b",
    "setting, chucking": r"same hold|in its hold|letting go|it was held by\b",
    "saw, part off": r"\bcut(?:ting)? off\b",
    "overhang": r"\bstick(?:s|ing)? out\b",
    "training and supervision": r"\blicen[sc]ed?\b",
    "indicator, or collar": r"(?<!\()\bdials?\b(?! (?:test )?(?:indicators?|gauges?)\b)",
    "swarf": r"(?<!\()\bchips\b",
    "diameter, 180°": r"\b(?:the|a) round\b(?! piece| bar)|\bhalf round\b",
    "min. and max.": r"\bleast (?:and|to) most\b|\bnothing above\b",
    "reverse, end for end": r"\bturn the (?:work|part) (?:half )?round\b",
    "other taper, unknown taper": r"\bmy own measures\b|what have i got",
    "working face": r"\bbar's edge\b|\bedge of the bar\b",
    "numbers": r"\bhundredths\b",
}
"""What to say instead, and what must not be shown."""

QUOTED = re.compile(r"\b(?:IS|JIS|DIN|ISO)(?: [A-Z])? \d")
"""What is quoted of a standard keeps the units it has there."""
OWN_NAME = re.compile("pin (?:<&>|&lt;&amp;&gt;)")
"""What the generator calls some of its pieces."""


@cache
def _varied() -> tuple[dict[str, Any], ...]:
    """The demonstration by every way, as shank and socket, at several moments of the job."""
    moments: tuple[dict[str, str], ...] = (
        {},
        {"cutting.slide_travel": "30 mm"},
        {"cutting.stand_off": "2 mm", "finishing.spigot_now": "16.2 mm"},
        {"finishing.across_now": "9.8 mm", "finishing.tang_now": "6.0 mm"},
        {"blank.end": "drawbar", "cutting.stand_off": "-1 mm", "cutting.speeds": "2000"},
        {"taper.series": "unknown", "taper.large_diameter": "17.5 mm", "taper.small_diameter": "15.5 mm"}
        | {"taper.length": "40 mm"},
    )
    demo: dict[str, Any] = dict(demo_request())
    found = []
    for way in WAYS:
        for form in ("external", "internal"):
            for moment in moments:
                entries = {**demo["entries"], "setting.way": way.ID, "taper.form": form, **moment}
                for units in ("mm", "inch"):
                    found.append(work({**demo, "units": units, "entries": entries}))
    return tuple(found)


@cache
def shown() -> tuple[tuple[str, str, str, str], ...]:
    """Units, stage, place and text of all that corpus, generated and varied jobs show, each once."""
    found: dict[tuple[str, str, str, str], None] = {}
    asked = [path.read_text("utf-8", errors="surrogatepass") for path in sorted(CORPUS.iterdir())]
    answers = [json.loads(work_text(text)) for text in [*asked, *generated(work, 150, 7)]]
    for sheet in (*answers, *_varied()):
        units = sheet.get("units", "mm") if "stages" in sheet else ""
        for system in ("mm", "inch") if units else ():
            for stage, place, text in texts(sheet, system):
                found[system, stage, place, OWN_NAME.sub("", text)] = None
    return tuple(found)


def test_settled_words() -> None:
    wrong = {
        (f"say {instead}", place, text[:200])
        for instead, pattern in SETTLED.items()
        for _, _, place, text in shown()
        if re.search(pattern, text, re.IGNORECASE)
    }
    assert not wrong


def test_the_list_finds_what_it_looks_for() -> None:
    """Each pattern against the wording it was made for."""
    old = (
        "Swing the slide", "under the tailstock pin", "set it to nought", "0.10 mm, as told", "the cut flank",
        "in two bites", "so that no play is left", "Turn at 300 turns/min", "the taper is too flat", "needs"
        " mending",
        "in the same hold", "Cut off, length", "Sticks out of the jaws", "licensed practice", "set the dial"
        " to 0",
        "clearing chips often", "across it and the round", "least and most", "turn the part round",
        "What have I got here?", "square to the bar's edge", "a few hundredths",
    )  # fmt: skip
    for (instead, pattern), text in zip(SETTLED.items(), old, strict=True):
        assert re.search(pattern, text, re.IGNORECASE), instead


def test_the_trade_finds_its_own_words() -> None:
    """What a machinist looks for stands there: the words that once did not occur at all."""
    everything = " ".join(text for _, _, _, text in shown())
    for word in (
        "r/min (rpm)", "epth of cut", "Feed per revolution", "top slide (compound)", "spring pass", "ring"
        " gauge",
        "plug gauge", "gage line", "taper per foot", "carrier (dog)", "swarf", "(L:D)", "Unknown taper:"
        " identify it",
        "fixed steady (steady rest)", "rotating (live) centre", "Over-cut", "chucking allowance",
    ):  # fmt: skip
        assert word in everything, word


@pytest.mark.parametrize("units", ["mm", "inch"])
def test_sentences_keep_to_the_units_in_force(units: str) -> None:
    """Steps, lines, cautions and help of a job in one system; what carries its own name may keep its own."""
    other = r"\d ?(?:mm|µm)\b" if units == "inch" else r"\d ?(?:in|thou|tenths?)\b(?! (?:carbide|per foot))"
    mine = r"\d ?(?:in|thou|tenths?)\b|in/ft" if units == "inch" else r"\d ?(?:mm|µm)\b"
    demo: dict[str, Any] = dict(demo_request())
    for form in ("external", "internal"):
        entries = {**demo["entries"], "taper.form": form, "blank.stock": ""}
        sheet = work({**demo, "units": units, "entries": entries})
        for stage in sheet["stages"]:
            said = [stage["line"], *(step["text"][units] for step in stage["steps"])]
            said += [f"{each['text']} {each['reason']}" for each in stage["cautions"]]
            said += [field["help"] for field in stage["fields"]]
            for text in (each for each in said if not QUOTED.search(each)):
                assert not re.search(other, text) or re.search(mine, text), text


def test_nobody_is_asked_to_set_what_nobody_can_set() -> None:
    """No more than 0.0001 in or 0.001 mm in a step, save the limits of a fit as ISO 286 has them."""
    finest = {"mm": r"\d\.\d{4,} mm", "inch": r"\d\.\d{5,} in\b"}
    seen = 0
    for sheet in _varied():
        for step in sheet["route"]:
            # A spigot has its limits as ISO 286 has them; a correction for each 0.01 mm is a ratio.
            if not step["id"].startswith(("finishing.spigot", "setting.correct")):
                seen += 1
                text = step["text"][sheet["units"]]
                assert not re.search(finest[sheet["units"]], text), text
    assert seen > 1000


def test_small_errors_carry_a_word_and_no_bare_sign() -> None:
    """Steeper by so much, over-cut by so much: what a figure shows needs no rule for its sign."""
    seen = 0
    for sheet in _varied():
        for stage in sheet["stages"]:
            for figure in stage["figures"]:
                seen += 1
                assert not re.match(r"[+−-]", figure["shown"]["mm"] + figure["shown"]["inch"]), figure["id"]
    assert seen > 1000
