"""A drawer as it was typed, read into pieces: every row answered beside itself, none stopping another."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from calc.drawer.as_sold import MICROMETER_NM, as_sold
from calc.drawer.pieces import LARGEST_PIECE_NM, LEAF, MOST_OF_ONE_PIECE, NANOMETRES_PER_MILLIMETRE, Piece
from calc.drawer.shapes import CALLED, DOWEL, kind_of, read_shape
from calc.quantities import Reading, Unreadable, plus_minus_length, read_count, read_length
from calc.quantities.wording import EXAMPLES
from calc.rows import sent_row

KEYS = ("name", "shape", "size", "measured", "give", "count")
HOW_FAR_OFF = "Type how far off the piece may be, such as 0.002 mm."
MOST_ROWS = 300
LONGEST_NAME = 60
LONGEST_TEXT = 400

# A measured size farther than this from the named one is more likely a slip of the pen than a worn piece:
# 5 % of the size, but never less than 0.02 mm nor more than 0.5 mm. Common practice, no source.
SLIP_SHARE = Fraction(5, 100)
LEAST_SLIP = Fraction(2, 100)
MOST_SLIP = Fraction(1, 2)

# No feeler leaf is thicker than this [mm]: a bare number above it was meant in a smaller unit. Common
# practice, no source.
THICKEST_LEAF = Fraction(3)

Named = Callable[[str], Fraction | None]


@dataclass(slots=True)
class PieceRow:
    """One row of the drawer.

    place: its position as sent.
    typed: the text of each key as it was typed.
    readings: what was read, for size, measured, give and count.
    faults: what could not be read, by key; a row with a fault gives no piece.
    read: how a key was read, in words, where that is worth saying.
    normalised: the row again in texts that mean the same in either unit system.
    shape: "round", "flat", "leaf", or "" where it could not be read.
    kind: what it is sold as, such as "drill", "dowel" or "gauge block"; "" where the shape could not be read.
    piece: the piece, or None for an empty row, a faulty one, or a count of none.
    cautions: what looks odd but was used.
    taken_as: in words, how doubtful the size is and where that comes from, in both unit systems.
    """

    place: int
    typed: dict[str, str] = field(default_factory=dict)
    readings: dict[str, Reading] = field(default_factory=dict)
    faults: dict[str, Unreadable] = field(default_factory=dict)
    read: dict[str, str] = field(default_factory=dict)
    normalised: dict[str, str] = field(default_factory=dict)
    shape: str = ""
    kind: str = ""
    piece: Piece | None = None
    cautions: list[str] = field(default_factory=list)
    taken_as: Mapping[str, str] = field(default_factory=lambda: {"mm": "", "inch": ""})


@dataclass(frozen=True, slots=True)
class Drawer:
    """All rows as read, the pieces that can be used, and a sentence about what was left out ("" if
    nothing)."""

    rows: tuple[PieceRow, ...]
    note: str = ""

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The usable pieces in drawer order."""
        return tuple(row.piece for row in self.rows if row.piece is not None)


def read_drawer(
    rows: object,
    unit: str = "mm",
    named: Named | None = None,
    read_one: Callable[[object, int], PieceRow] | None = None,
) -> Drawer:
    """Read the rows of a drawer as sent; never raises, whatever they are.

    rows: a list of dicts with the texts of KEYS, each of which may be missing.
    unit: what a bare number means, "mm" or "in".
    named: gives the size [mm] of a drill by its name ("#7", "F").
    read_one: `read_row` for one who remembers rows; else they are read here.
    """
    if not isinstance(rows, (list, tuple)):
        return Drawer((), "" if rows is None else "The drawer could not be read: it is not a list of pieces.")
    note = ""
    if len(rows) > MOST_ROWS:
        note = f"The drawer holds {len(rows)} rows; the first {MOST_ROWS} are kept, the others left out."

    def read_here(row: object, place: int) -> PieceRow:
        return read_row(row, place, unit, named)

    read = read_one or read_here
    return Drawer(tuple(read(row, place) for place, row in enumerate(rows[:MOST_ROWS])), note)


def read_row(sent: object, place: int, unit: str = "mm", named: Named | None = None) -> PieceRow:
    """Read the row in this place, by itself; never raises. What it says hangs on no other row."""
    found = sent_row(sent, place, KEYS)
    row = PieceRow(place, {**found.texts, "name": found.texts["name"][:LONGEST_TEXT]})
    if not found.is_row:
        row.normalised = dict(row.typed)
        row.faults["name"] = Unreadable(
            "", 0, 0, "this row is not a piece", "Type its name and size, or take the row out."
        )
        return row
    for key in found.odd:
        row.faults[key] = Unreadable("", 0, 0, "this is neither text nor a number", "Type it again.")
    if not row.faults and not any(row.typed[key].strip() for key in KEYS if key not in ("shape", "count")):
        row.normalised = dict(row.typed)
        return row
    name = _clean(row.typed["name"])
    _read_shape(row, name)
    _read_size(row, "size", unit, named)
    _read_size(row, "measured", unit, named)
    _read_give(row, unit)
    _read_count(row)
    _want_a_size(row, name, unit, named)
    sold_as = row.readings.get("size") or row.readings.get("measured")
    if not name and row.shape and sold_as is not None and row.kind != kind_of(row.shape, row.shape, ""):
        # The shape's word is settled to one of three: what kind it was stays in the name.
        name = _called(row, sold_as)
    row.normalised = {
        "name": name,
        "shape": row.shape or row.typed["shape"],
        **{
            key: row.readings[key].understood if key in row.readings else row.typed[key]
            for key in ("size", "measured", "give", "count")
        },
    }
    if not row.faults:
        _make_piece(row, name)
    return row


def _clean(name: str) -> str:
    """The name on one line, without control characters, at a length that can be shown."""
    return " ".join("".join(letter if letter.isprintable() else " " for letter in name).split())[
        :LONGEST_NAME
    ].strip()


def _read_shape(row: PieceRow, name: str) -> None:
    if "shape" in row.faults:
        return
    try:
        row.shape, said = read_shape(row.typed["shape"], name)
    except Unreadable as fault:
        row.faults["shape"] = fault
        return
    row.kind = kind_of(row.shape, row.typed["shape"], name)
    if said:
        row.read["shape"] = said


def _read_size(row: PieceRow, key: str, unit: str, named: Named | None) -> None:
    text = row.typed[key]
    if key in row.faults or not text.strip():
        return

    def read(text: str) -> Reading:
        return _size(text, row.shape, unit, named)

    try:
        reading = read(text)
    except Unreadable as fault:
        row.faults[key] = _with_offers_that(read, fault)
        return
    row.readings[key] = reading
    row.read[key] = _said(reading)
    if (reading.exact * NANOMETRES_PER_MILLIMETRE).denominator != 1:
        row.read[key] += "; rounded to the nearest nanometre"


def _size(text: str, shape: str, unit: str, named: Named | None) -> Reading:
    """A size as typed; raises Unreadable where it cannot be read, or no piece of this shape has it."""
    reading = read_length(text, unit, named)
    if reading.exact <= 0:
        raise Unreadable(
            text,
            0,
            len(text),
            "a piece has a size of more than zero",
            "Type how thick it is, such as 4.2 mm.",
        )
    if reading.exact * NANOMETRES_PER_MILLIMETRE > LARGEST_PIECE_NM:
        raise Unreadable(
            text, 0, len(text), f"{reading.understood} is more than 1 m, too big for a piece of a stack",
            "Check the point and the unit.",
        )  # fmt: skip
    if reading.exact * NANOMETRES_PER_MILLIMETRE < Fraction(1, 2):
        raise Unreadable(text, 0, len(text), "this is less than a nanometre", "Check the point and the unit.")
    if shape == LEAF and reading.exact > THICKEST_LEAF:
        _refuse_bare_leaf(text, unit, reading, named)
    return reading


def _with_offers_that(read: Callable[[str], Reading], fault: Unreadable) -> Unreadable:
    """The fault with those of its offers that are accepted here: an offer must not lead into the next one."""
    taken = []
    for offer in fault.offers:
        try:
            read(offer)
        except Unreadable:
            continue
        taken.append(offer)
    return Unreadable(fault.text, fault.start, fault.end, fault.message, fault.way_out, tuple(taken))


def _refuse_bare_leaf(text: str, unit: str, reading: Reading, named: Named | None) -> None:
    """Raises Unreadable where a leaf's bare number was read in a unit that makes it absurdly thick.

    With a unit in the text it is the person's word, and stands.
    """
    if read_length(text, "mm" if unit == "in" else "in", named).exact == reading.exact:
        return
    number = reading.exact / (Fraction(254, 10) if unit == "in" else 1)
    offers = [f"{float(number):g} thou"]
    if unit != "in":
        offers.append(f"{float(number / 100):g} mm")
    raise Unreadable(
        text,
        0,
        len(text),
        f"read as {reading.understood}, and no leaf is so thick",
        f"Type it with its unit, such as {' or '.join(offers)}.",
        tuple(offers),
    )


def _read_give(row: PieceRow, unit: str) -> None:
    text = row.typed["give"]
    if "give" in row.faults or not text.strip():
        return
    bare = text.strip()
    for sign in ("±", "+/-", "+-"):
        # A sign alone is left as it is: what is refused is something that can be pointed at.
        if bare.startswith(sign) and bare != sign:
            bare = bare[len(sign) :]
            break
    size = row.readings.get("measured") or row.readings.get("size")

    def read(bare: str) -> Reading:
        reading = read_length(bare, unit)
        if reading.exact < 0:
            raise Unreadable(bare, 0, len(bare), "a ± is not below zero", HOW_FAR_OFF)
        if size is not None and reading.exact >= size.exact:
            much = f"± {reading.understood} is as much as the piece itself"
            raise Unreadable(bare, 0, len(bare), much, HOW_FAR_OFF)
        return reading

    try:
        reading = read(bare)
    except Unreadable as fault:
        fault = _with_offers_that(read, fault)
        # The span counts from the sign's end; move it to the text as typed.
        shift = text.index(bare) if bare else 0
        # What is an example of a length is none of how far one may be off.
        way_out = HOW_FAR_OFF if fault.way_out == EXAMPLES["length"] else fault.way_out
        row.faults["give"] = Unreadable(
            text, fault.start + shift, fault.end + shift, fault.message, way_out, fault.offers
        )
        return
    row.readings["give"] = reading
    row.read["give"] = _said(reading)


def _read_count(row: PieceRow) -> None:
    text = row.typed["count"]
    if "count" in row.faults or not text.strip():
        return
    try:
        row.readings["count"] = read_count(text, 0, MOST_OF_ONE_PIECE)
    except Unreadable as fault:
        row.faults["count"] = fault


def _want_a_size(row: PieceRow, name: str, unit: str, named: Named | None) -> None:
    """A row must have a size, named or measured; the name is offered where it reads as one."""
    if any(key in row.readings or key in row.faults for key in ("size", "measured")):
        return
    offers: tuple[str, ...] = ()
    first = name.split(" ")[0]
    for candidate in (name, f"{first} drill", first):
        try:
            reading = read_length(candidate, unit, named)
        except Unreadable:
            continue
        if reading.exact > 0:
            offers = (reading.understood,)
            break
    row.faults["size"] = Unreadable(
        row.typed["size"],
        0,
        len(row.typed["size"]),
        "no size is given",
        "Type its size, such as 4.2 mm.",
        offers,
    )


def _make_piece(row: PieceRow, name: str) -> None:
    size, measured, give = (row.readings.get(key) for key in ("size", "measured", "give"))
    trusted = measured or size
    if trusted is None:
        return
    size_nm = max(1, round(trusted.exact * NANOMETRES_PER_MILLIMETRE))
    if size is not None and measured is not None:
        _mind_a_slip(row, size, measured)
    if give is not None:
        half_width, why = float(give.exact * NANOMETRES_PER_MILLIMETRE), "as stated"
    elif measured is not None:
        half_width, why = MICROMETER_NM, "a micrometer read to 0.0001 in; common practice, no source"
    else:
        inch = row.kind == DOWEL and trusted.understood.endswith(("in", "thou"))
        sold = as_sold(f"inch {DOWEL}" if inch else row.kind, size_nm)
        size_nm = max(1, size_nm + sold.middle_nm)
        half_width, why = sold.half_width_nm, f"not measured, taken as sold: {sold.words}"
    words = plus_minus_length(half_width / NANOMETRES_PER_MILLIMETRE)
    row.taken_as = {system: f"{words[system]} ({why})" for system in ("mm", "inch")}
    count = row.readings.get("count")
    many = 1 if count is None else int(count.exact)
    if many:
        called = name or _called(row, size or trusted)
        standard = half_width / math.sqrt(3.0)  # rectangular limits: GUM 4.3.7
        row.piece = Piece(called, row.shape, size_nm, standard, measured is not None, many, row.place)


def _called(row: PieceRow, sold_as: Reading) -> str:
    """What a piece without a name is called: by its size and what it is."""
    return f"{sold_as.understood} {CALLED.get(row.kind, row.kind)}"


def _mind_a_slip(row: PieceRow, size: Reading, measured: Reading) -> None:
    """Say, beside the piece, that it cannot be what it was sold as."""
    most = min(max(size.exact * SLIP_SHARE, LEAST_SLIP), MOST_SLIP)
    if abs(measured.exact - size.exact) > most:
        row.cautions.append(
            f"measured {measured.understood} but sold as {size.understood}: digits swapped, or the wrong"
            f" unit? The measured size is used. Measure again, or put it down as sold {measured.understood}."
        )
        row.read["measured"] += f"; it is sold as {size.understood}: measure it again, or mend “Sold as”"


def _said(reading: Reading) -> str:
    return f"read as {reading.understood}" + (f" ({reading.note})" if reading.note else "")
