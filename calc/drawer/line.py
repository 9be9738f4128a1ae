"""One piece on one line, as in a notebook: "4.2 drill 4.187", "leaf 6 thou x2", "#39 .0995"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from calc.drawer.pieces import FLAT, LEAF, ROUND
from calc.drawer.reading import LEAST_SLIP, LONGEST_TEXT, MOST_SLIP, SLIP_SHARE, Named
from calc.drawer.shapes import shape_of_word
from calc.quantities import Reading, Unreadable, read_count, read_length

WAY_OUT = "Write its size, what it is and what it measures, such as: 4.2 drill 4.187."
MOST_TOKENS = 24
USUAL = {ROUND: (Fraction(1, 10), 60), FLAT: (Fraction(1, 20), 110), LEAF: (Fraction(1, 100), 3)}
"""Sizes that people have [mm]: a bare number outside is more likely of another unit. Common practice, no
source."""

_COUNT = re.compile(r"(?:^|\s)(?:[x×*]\s*(\d+)|(\d+)\s*(?:[x×]|off|pcs?|pieces))\s*$", re.IGNORECASE)
_GIVE = re.compile(r"(?:±|\+/-|\+-)\s*([^±]+?)\s*$")
_PLAIN = re.compile(r"\d*[.,]?\d+")
_FEW_WORDS = frozenset("of set a shank hss carbide marked measures measured is at = , ;".split())


@dataclass(frozen=True, slots=True)
class _Span:
    """A size within the line, and where it stands in it."""

    text: str
    reading: Reading


def read_line(line: str, unit: str = "mm", named: Named | None = None) -> dict[str, str]:
    """The row of the drawer that a line means, in the texts of `KEYS`; sizes get their unit spelled out.

    The size sold comes first, then what it measures; a word says what it is, `±` how well it is known, `x2`
    how many there are. Without a word, a drill's name is a drill and anything else round, as in the drawer.
    unit: what a bare number means, "mm" or "in". A measured size close to the one sold only in the other
    unit is taken in that one: `#39 .0995` in a metric drawer measures 0.0995 in.

    Raises Unreadable, with its span in the line, where no size is found, more than two are, or a bare number
    would make a piece that nobody has. Its offers are whole lines, each of which is read.
    """
    text = line[:LONGEST_TEXT]
    try:
        return _read(text, unit, named)
    except Unreadable as fault:
        raise _of_the_line(text, fault, unit, named) from None


def _of_the_line(line: str, fault: Unreadable, unit: str, named: Named | None) -> Unreadable:
    """What a reader refused of a part, as a fault of the line that the part stands in."""
    at, start, end = 0, 0, len(line)
    offers: tuple[str, ...] = ()
    if fault.text in line:
        at = line.find(fault.text)
        start, end = at + fault.start, at + fault.end
        after = line[at + len(fault.text) :]
        offers = tuple(line[:at] + offer + after for offer in fault.offers)
    read = tuple(offer for offer in offers if _reads(offer, unit, named))
    return Unreadable(line, start, end, fault.message, fault.way_out or WAY_OUT, read)


def _reads(line: str, unit: str, named: Named | None) -> bool:
    try:
        _read(line, unit, named)
    except Unreadable:
        return False
    return True


def _read(text: str, unit: str, named: Named | None) -> dict[str, str]:
    rest, count = _take_count(text)
    rest, give = _take_give(rest)
    name = " ".join(rest.split())
    before, after, shape, drill = _words_out(rest)
    sizes = _sizes(before, unit, named) + _sizes(after, unit, named)
    if not sizes:
        raise Unreadable(text, 0, len(text), "no size is found in this line", WAY_OUT, ())
    if len(sizes) > 2:
        raise Unreadable(text, 0, len(text), "more than two sizes stand in this line", WAY_OUT, ())
    sold = _as_a_drill(text, sizes[0], unit, named) if drill or not shape else sizes[0]
    shape = shape or ROUND
    _mind_its_unit(text, sold, shape)
    measured, taken = "", _unit_of(sold, unit)
    if len(sizes) == 2:
        measured, taken = _same_unit(sold.reading, sizes[1], unit)
    return {
        "name": _named_as(name, sizes),
        "shape": shape,
        "size": sold.reading.understood,
        "measured": measured,
        "give": read_length(give, taken).understood if give else "",
        "count": count,
    }


def read_lines(lines: Sequence[object], unit: str, named: Named | None) -> list[dict[str, str] | Unreadable]:
    """Each line as a row, or what is wrong with it; empty lines are passed over. Never raises."""
    answers: list[dict[str, str] | Unreadable] = []
    for line in lines:
        if not isinstance(line, str):
            answers.append(Unreadable("", 0, 0, "this line is no text", WAY_OUT))
        elif line.strip():
            try:
                answers.append(read_line(line, unit, named))
            except Unreadable as fault:
                answers.append(fault)
    return answers


def _take_count(text: str) -> tuple[str, str]:
    found = _COUNT.search(text)
    if not found:
        return text, "1"
    digits = found.group(1) or found.group(2)
    read_count(digits, 1, 50)
    return text[: found.start()], str(int(digits))


def _take_give(text: str) -> tuple[str, str]:
    found = _GIVE.search(text)
    return (text[: found.start()], found.group(1)) if found else (text, "")


def _words_out(text: str) -> tuple[list[str], list[str], str, bool]:
    """What stands before and after the words that say what it is, the shape they name ("" for none), and
    whether it is called a drill."""
    before: list[str] = []
    after: list[str] = []
    shape = ""
    drill = False
    for token in text.replace("\t", " ").split()[:MOST_TOKENS]:
        word = token.casefold().strip(",;:()")
        named = shape_of_word(word)
        if named:
            # "feeler gauge" is a leaf, "drill shank" a drill: as in the drawer, a leaf wins over a block.
            shape = LEAF if LEAF in (shape, named) else named
            drill = drill or word in ("drill", "drills")
        elif word not in _FEW_WORDS and not (word == "gauge" or word == "gage"):
            (after if shape else before).append(token)
    return before, after, shape, drill


def _sizes(tokens: list[str], unit: str, named: Named | None) -> list[_Span]:
    """The fewest sizes that the tokens read as, one after another; what is no size is part of a name."""
    found: list[_Span] = []
    at = 0
    while at < len(tokens):
        for end in range(len(tokens), at, -1):
            text = " ".join(tokens[at:end])
            reading = _try(text, unit, named)
            if reading is not None:
                found.append(_Span(text, reading))
                at = end
                break
        else:
            if any(letter.isdigit() for letter in tokens[at]):
                # Something with digits that is no size: say what is wrong with it.
                read_length(" ".join(tokens[at:]), unit, named)
                raise Unreadable(tokens[at], 0, len(tokens[at]), "this is no size", WAY_OUT)
            at += 1
    return found


def _try(text: str, unit: str, named: Named | None) -> Reading | None:
    try:
        reading = read_length(text, unit, named)
    except Unreadable:
        return None
    return reading if reading.exact > 0 else None


def _as_a_drill(line: str, sold: _Span, unit: str, named: Named | None) -> _Span:
    """The size again as a drill's: 3/32 is an inch size, and 7 is refused, for #7 is another one."""
    try:
        return _Span(sold.text, read_length(f"{sold.text} drill", unit, named))
    except Unreadable as fault:
        if not _PLAIN.fullmatch(sold.text) or not fault.offers:
            return sold
        at = max(0, line.find(sold.text))
        end = at + len(sold.text)
        offers = tuple(line[:at] + offer.removesuffix(" drill") + line[end:] for offer in fault.offers)
        raise Unreadable(line, at, end, str(fault), fault.way_out, offers) from None


def _mind_its_unit(line: str, sold: _Span, shape: str) -> None:
    """Refuse a bare number that would make a piece nobody has, and offer it in each unit that makes sense."""
    least, most = USUAL[shape]
    if not _PLAIN.fullmatch(sold.text) or least <= sold.reading.exact <= most:
        return
    at = max(0, line.find(sold.text))
    end = at + len(sold.text)
    likely = [
        f"{line[:at]}{sold.text} {each}{line[end:]}"
        for each in ("mm", "thou", "in")
        if least <= read_length(f"{sold.text} {each}").exact <= most
    ]
    raise Unreadable(
        line,
        at,
        end,
        f"“{sold.text}” would be {sold.reading.understood} here",
        "Say which unit it has.",
        tuple(likely),
    )


def _unit_of(span: _Span, unit: str) -> str:
    if _PLAIN.fullmatch(span.text):
        return unit
    return "mm" if span.reading.understood.endswith("mm") else "in"


def _close(one: Fraction, other: Fraction) -> bool:
    return abs(one - other) <= min(max(one * SLIP_SHARE, LEAST_SLIP), MOST_SLIP)


def _same_unit(sold: Reading, measured: _Span, unit: str) -> tuple[str, str]:
    """The measured size with its unit, and the unit a bare ± has beside it.

    A bare number takes the other unit only where that alone is close to the size sold.
    """
    reading = measured.reading
    if not _PLAIN.fullmatch(measured.text):
        return reading.understood, _unit_of(measured, unit)
    other_unit = "in" if unit == "mm" else "mm"
    other = read_length(measured.text, other_unit)
    if _close(sold.exact, other.exact) and not _close(sold.exact, reading.exact):
        return other.understood, other_unit
    return reading.understood, unit


def _named_as(name: str, sizes: Sequence[_Span]) -> str:
    """The line without what it measures; a drill, where nothing was said of what it is."""
    if len(sizes) == 2:
        at = name.rfind(" ".join(sizes[1].text.split()))
        name = (name[:at] if at > 0 else name).strip(" ,;=")
        for word in ("measures", "measured", "is", "at"):
            name = name.removesuffix(f" {word}")
    if not any(shape_of_word(word.casefold()) for word in name.split()):
        name = f"{name} drill"
    return name
