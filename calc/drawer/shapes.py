"""The words people use for the shape of a piece."""

from __future__ import annotations

from calc.drawer.pieces import FLAT, LEAF, ROUND
from calc.quantities import Unreadable

_WORDS = {
    ROUND: (
        "round",
        "drill",
        "drills",
        "pin",
        "pins",
        "dowel",
        "roller",
        "rod",
        "bar",
        "ball",
        "twist",
        "cylinder",
    ),
    FLAT: (
        "flat",
        "flats",
        "block",
        "blocks",
        "gauge",
        "gage",
        "slip",
        "slips",
        "parallel",
        "plate",
        "square",
    ),
    LEAF: ("leaf", "leaves", "feeler", "feelers", "shim", "shims", "blade", "foil"),
}
_SHAPE_OF = {word: shape for shape, words in _WORDS.items() for word in words}
OFFERS = (ROUND, FLAT, LEAF)
# What a piece of each shape is called where the person gives it no name.
CALLED = {ROUND: "drill", FLAT: "block", LEAF: "leaf"}
_ECHO = 40


def read_shape(text: str, name: str) -> tuple[str, str]:
    """The shape meant by a text, and how it was read ("" where nothing was to decide).

    Without a text the name decides, and without a word there the piece counts as round, which is the safe
    side: of round pieces only one goes in a stack.

    Raises Unreadable, with the three shapes as offers, for a text that names none.
    """
    wanted = text.strip().casefold()
    if not wanted:
        found = _first(name)
        if found:
            return found, f"taken as {found}, from its name"
        return ROUND, "taken as round, as no shape is given"
    found = _SHAPE_OF.get(wanted, "") or _first(wanted)
    if not found:
        raise Unreadable(
            text,
            0,
            len(text),
            f"“{text.strip()[:_ECHO]}” is not a shape known here",
            "Say round for a drill or pin, flat for a block, leaf for a feeler leaf.",
            OFFERS,
        )
    return found, "" if found == wanted else f"read as {found}"


def _first(text: str) -> str:
    """The shape of the last word that names one, since "feeler gauge" is a leaf's first word and "drill shank
    leaf" a leaf; leaves win over blocks because "gauge" goes with both."""
    words = "".join(letter if letter.isalpha() else " " for letter in text[:200].casefold()).split()
    found = [_SHAPE_OF[word] for word in words if word in _SHAPE_OF]
    if LEAF in found:
        return LEAF
    return found[-1] if found else ""
