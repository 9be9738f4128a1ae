"""The words people use for the shape of a piece, and for the kind of thing it is, as it is sold."""

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
        "dowels",
        "rollers",
        "balls",
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
        "parallels",
        "plate",
        "square",
        "key",
        "keysteel",
        "tool",
        "toolbit",
    ),
    LEAF: ("leaf", "leaves", "feeler", "feelers", "shim", "shims", "blade", "foil"),
}
_SHAPE_OF = {word: shape for shape, words in _WORDS.items() for word in words}
OFFERS = (ROUND, FLAT, LEAF)

DRILL, DOWEL, PIN, ROLLER, BALL, ROD = "drill", "dowel", "pin", "roller", "ball", "rod"
GAUGE_BLOCK, PARALLEL = "gauge block", "parallel"
# What words tell of a kind, the first that holds one of the words deciding.
_KINDS: dict[str, tuple[tuple[str, tuple[str, ...]], ...]] = {
    ROUND: (
        (DRILL, ("drill", "drills", "twist")),
        (DOWEL, ("dowel", "dowels")),
        (ROLLER, ("roller", "rollers")),
        (BALL, ("ball", "balls")),
        (PIN, ("pin", "pins")),
        (ROD, ("rod", "bar", "cylinder")),
    ),
    FLAT: (
        (PARALLEL, ("parallel", "parallels")),
        (FLAT, ("key", "keysteel", "tool", "toolbit", "plate", "square")),
        (GAUGE_BLOCK, ("block", "blocks", "slip", "slips")),
    ),
    LEAF: (),
}
_NO_WORD = {ROUND: DRILL, FLAT: FLAT, LEAF: LEAF}
# What a piece of each kind is called where the person gives it no name.
CALLED = {GAUGE_BLOCK: "block"}
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
            "Enter round for a drill or dowel pin, flat for a block, leaf for a feeler gauge leaf.",
            OFFERS,
        )
    return found, "" if found == wanted else f"read as {found}"


def kind_of(shape: str, text: str, name: str) -> str:
    """The kind of piece, of which the table of pieces as sold has rows: by a word of its name, or, where it
    has none, by the word given for its shape; else the one most met: a drill, a plain flat, a leaf.

    Only what is called a block, a gauge block or a slip is a gauge block: key steel is none. A name goes
    before the shape's word because the word is settled to three once read, and the name stays.
    """
    words = set(_words(name or text))
    for kind, told_by in _KINDS[shape]:
        if not words.isdisjoint(told_by):
            return kind
    return _NO_WORD[shape]


def _words(text: str) -> list[str]:
    return "".join(letter if letter.isalpha() else " " for letter in text[:200].casefold()).split()


def shape_of_word(word: str) -> str:
    """The shape that a single word in small letters names, or ""."""
    return _SHAPE_OF.get(word, "")


def _first(text: str) -> str:
    """The shape of the last word that names one, since "feeler gauge" is a leaf's first word and "drill shank
    leaf" a leaf; leaves win over blocks because "gauge" goes with both."""
    found = [_SHAPE_OF[word] for word in _words(text) if word in _SHAPE_OF]
    if LEAF in found:
        return LEAF
    return found[-1] if found else ""
