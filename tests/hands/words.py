"""What sentences about an indicator say: where it is fixed, on what it bears, what is wound, what it must
show.

Every sentence that speaks of an indicator must be understood here, else `understood` raises.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from calc.quantities import read_length
from calc.sheet import Step

SPEAKS = re.compile(r"indicator|stylus|plunger|\breading\b|first one|second one", re.IGNORECASE)
LENGTH = r"(?P<far>-?[\d.]+ (?:mm|in))"
BY = r"(?P<by>[\d.]+ (?:mm|in))"
END = r"(?P<end>headstock|tailstock)"
GRAMMAR = {
    "fixed": r"Fix (?P<which>a|a second) dial (?:test indicator \(DTI\)|indicator) (?:to|in)"
    " (?P<where>.+?), its"
    r" (?:stylus|plunger) on (?P<on>.+), moving (?P<square>.+)\.",
    "along": rf"Wind the (?P<what>carriage) so that the stylus runs along {LENGTH} of that face, the top"
    " slide's"
    r" handle left alone\.",
    "same": r"Tap the top slide until the reading is the same at both ends\.",
    "again": r"Tighten, and run the indicator along once more: tightening moves it\.",
    "run": rf"Wind the (?P<what>top slide|carriage) {LENGTH} towards the {END}, coming from one direction"
    " so that"
    rf" backlash is taken up: the plunger must go (?P<way>in|out) by {BY}\.",
    "two": rf"Wind the (?P<what>top slide) towards the {END} until the second one has moved {LENGTH}: the"
    " first"
    rf" one's plunger must go (?P<way>in|out) by {BY}\.",
    "carriage": rf"Wind the (?P<what>carriage) {LENGTH} towards the {END}: the first one's plunger must go"
    rf" (?P<way>in|out) by {BY}\.",
    "master": rf"Wind the (?P<what>top slide) so that the stylus runs along {LENGTH} of the master, towards"
    rf" its small end: (?:the stylus must go (?P<way>in|out) by {BY}|the reading must be the same at both"
    r" ends)\.",
    "straight": r"Wind the (?P<what>carriage|top slide): the reading must be the same at both ends"
    r"(?:; or a light test cut must measure the same at both ends)?\.",
    "over": rf"Loosen the tailstock and set its top over towards (?P<to>the operator|the far side): the"
    rf" reading must change by {BY}\.",
    "stand": rf"Slide the stand so that the stylus runs along {LENGTH} of that line: the reading"
    r" must be the same at both ends\.",
    "moved": rf"(?:Loosen the top slide\. )?.*[Mm]ove the cross-slide {BY} by an indicator"
    r" (?P<way>away from|towards) the work, and swing the top slide .*",
}


@dataclass(frozen=True)
class Sentence:
    """One sentence: of which kind, and its parts."""

    kind: str
    parts: dict[str, str]
    step: str

    def length(self, name: str) -> float:
        """A measure [mm]."""
        return read_length(self.parts[name]).value


def understood(steps: Iterable[Step], system: str = "mm") -> list[Sentence]:
    """Every sentence that speaks of an indicator, in order; raises AssertionError for one in other words."""
    found = []
    for step in steps:
        for words in re.split(r"(?<=[.;])\s+(?=[A-Z])", step.text[system]):
            if not SPEAKS.search(words):
                continue
            for kind, pattern in GRAMMAR.items():
                match = re.fullmatch(pattern, words)
                if match:
                    parts = {name: part for name, part in match.groupdict().items() if part}
                    found.append(Sentence(kind, parts, step.id))
                    break
            else:
                raise AssertionError(f"an indicator in words the model does not know: {words}")
    return found


MOUNTS = {
    "the bed, headstock or tailstock, never to the carriage or anything that rides on it": (
        "bed", "headstock", "tailstock",
    ),
    "the bed or headstock": ("bed", "headstock"),
    "the bed": ("bed",),
    "the carriage": ("carriage",),
    "the cross-slide": ("cross-slide",),
    "the tool post": ("tool post",),
    "a stand that slides on the surface plate": ("stand",),
}  # fmt: skip
SURFACES = (
    (r"the sine bar's working face, the one away from the top slide, at its mid height", "sine bar face"),
    (
        r"the (?P<side>operator|far)(?:'s)? side of the top slide itself, clean and free of burrs",
        "top slide side",
    ),
    (
        r"the (?P<side>operator|far)(?:'s)? side of (?:the|a) test bar(?: in the spindle)?, at centre height",
        "test bar",
    ),
    (r"the side of a test bar between centres, at centre height", "between centres"),
    (r"the (?P<side>operator|far)(?:'s)? side of the master, exactly at centre height", "master"),
    (r"the face of the faceplate", "faceplate"),
    (r"the tailstock's barrel \(quill\), at centre height", "barrel"),
    (r"the carriage", "carriage end"),
    (r"the end of the top slide", "top slide end"),
    (r"a flat face on the tool post, set square to the lathe's axis", "tool post face"),
    (r"the cross-slide", "cross-slide"),
    (r"the highest line of the taper", "highest line"),
)


def bears_on(words: str) -> tuple[str, str]:
    """The surface, and on which side of it, as named here; raises AssertionError for one not known."""
    for pattern, name in SURFACES:
        match = re.fullmatch(pattern, words)
        if match:
            return name, match.groupdict().get("side") or "operator"
    raise AssertionError(f"a surface the model does not know: {words}")
