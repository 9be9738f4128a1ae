"""The drawer as fields: one row a piece, each cell answered beside itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from calc.drawer import KEYS, Drawer, Piece, PieceRow, read_drawer, read_row
from calc.drawer.reading import MOST_ROWS
from calc.sheet import Caution, Choice, Field
from calc.stages.common.form import LENGTH_UNIT, LONGEST_ECHO, fault_from
from calc.tables import drill_size
from calc.tables.loader import load

SHAPES = (
    Choice("round", "round (drill, dowel, roller)"),
    Choice("flat", "flat (gauge block or slip, parallel, key steel)"),
    Choice("leaf", "leaf (feeler gauge blade, shim)"),
)
ASKED: dict[str, tuple[str, str, str]] = {
    "name": ("Name", "text", ""),
    "shape": ("Shape", "choice", ""),
    "size": ("Sold as", "length", "A size or a drill's name: 4.2, 3/16 in, #7 drill."),
    "measured": ("Measured", "length", "Where it will sit: a drill on its shank, not its margins."),
    "give": ("Known to ±", "length", "Empty: ± 0.0025 mm (0.0001 in) where measured, else as sold."),
    "count": ("How many", "count", ""),
}


@dataclass(frozen=True, slots=True)
class DrawerRead:
    """The drawer's field, its usable pieces, the rows with every unit spelled out, what looks odd."""

    field: Field
    pieces: tuple[Piece, ...]
    normalised: list[dict[str, str]]
    cautions: Sequence[Caution]


@cache
def set_choices() -> tuple[Choice, ...]:
    """The customary sets, each with how many pieces it brings."""
    return tuple(Choice(row["key"], f"{row['label']} ({row['count']} pieces)") for row in load("sets"))


@dataclass(frozen=True, slots=True)
class LinesRead:
    """Rows for the drawer, written one a line, and for each line what is wrong with it (None: nothing)."""

    rows: list[dict[str, str]]
    answers: list[dict[str, object]]


def rows_of_lines(told: object, system: str) -> LinesRead:
    """Pieces written one a line, as rows of the drawer; what cannot be read stops no other. Never raises."""
    if not isinstance(told, list) or not told:
        return LinesRead([], [])
    from calc.drawer.line import read_lines  # wanted only where pieces are typed so

    lines = [line for line in told[:MOST_ROWS] if not isinstance(line, str) or line.strip()]
    rows: list[dict[str, str]] = []
    answers: list[dict[str, object]] = []
    for line, read in zip(lines, read_lines(lines, LENGTH_UNIT[system], drill_size), strict=True):
        text = line[: 5 * LONGEST_ECHO] if isinstance(line, str) else ""
        wrong = None if isinstance(read, dict) else fault_from(read)
        answers.append({"text": text, "wrong": wrong})
        if isinstance(read, dict):
            rows.append(read)
    return LinesRead(rows, answers)


def read_pieces(rows: Sequence[object], system: str, add: Sequence[str] = ()) -> DrawerRead:
    """Read the drawer as sent, with the sets of these keys put in; never raises.

    A drawer that says just what the last ones said is not gone through again: it stays while a person types
    elsewhere, and a full one has two hundred rows and more.
    """
    texts = tuple(each for row in rows if (each := _texts(row)) is not None)
    if len(texts) < len(rows):
        return _read_pieces(rows, system, add)
    return _read_once(texts, system, tuple(add))


@lru_cache(maxsize=4)
def _read_once(texts: tuple[tuple[object, ...], ...], system: str, add: tuple[str, ...]) -> DrawerRead:
    return _read_pieces([dict(zip(KEYS, each, strict=True)) for each in texts], system, add)


def _read_pieces(rows: Sequence[object], system: str, add: Sequence[str]) -> DrawerRead:
    """The drawer with the sets, gone through row by row."""
    drawer = _read(rows, system)
    added = ""
    if add:
        more, added = _from_sets(add, drawer, len(rows))
        rows = [*rows, *more]
        drawer = _read(rows, system)
    fields = [_cells(sent, row, system) for sent, row in zip(rows, drawer.rows, strict=False)]
    asked = Field(
        "drawer",
        "Your drawer: drills, dowel pins, feeler gauge leaves, gauge blocks (slips)",
        "pieces",
        choices=set_choices(),
        help="What may go into a stack. Measure each piece where it will sit and write it down once.",
        read=". ".join(filter(None, (_counted(drawer), added))),
        rows=fields,
    )
    return DrawerRead(asked, drawer.pieces, [row.normalised for row in drawer.rows], tuple(_cautions(drawer)))


def _read(rows: Sequence[object], system: str) -> Drawer:
    """The drawer as read.

    Between two key presses, or two calls for rows of a table, it mostly stays the same but for one row: what
    stays is not read again, which would be most of the work for a drawer of a hundred and fifty pieces.
    """

    def read_one(row: object, place: int) -> PieceRow:
        texts = _texts(row)
        if texts is None:
            return read_row(row, place, LENGTH_UNIT[system], drill_size)
        return _row_once(texts, place, system)

    return read_drawer(rows, read_one=read_one)


_PLAIN = frozenset((str, int, type(None)))


def _texts(row: object) -> tuple[object, ...] | None:
    """What a row sent holds, where it can be remembered by that."""
    if not isinstance(row, dict):
        return None
    texts = tuple(map(row.get, KEYS))
    return texts if _PLAIN.issuperset(map(type, texts)) else None


@lru_cache(maxsize=2 * MOST_ROWS)
def _row_once(texts: tuple[object, ...], place: int, system: str) -> PieceRow:
    return read_row(dict(zip(KEYS, texts, strict=True)), place, LENGTH_UNIT[system], drill_size)


def _cells(sent: object, row: PieceRow, system: str) -> Sequence[Field]:
    """The fields of one row."""
    texts = _texts(sent)
    if texts is None:
        return tuple(_cell(row, key, system) for key in KEYS)
    return _cells_once(texts, row.place, system)


@lru_cache(maxsize=2 * MOST_ROWS)
def _cells_once(texts: tuple[object, ...], place: int, system: str) -> tuple[Field, ...]:
    row = _row_once(texts, place, system)
    return tuple(_cell(row, key, system) for key in KEYS)


def _from_sets(keys: Sequence[str], drawer: Drawer, rows: int) -> tuple[list[dict[str, str]], str]:
    """The sets' pieces as rows not measured yet, and in words what became of them.

    A piece of the same shape and size that is in the drawer is not put in again; a drawer has `MOST_ROWS`.
    """
    from calc.quantities import read_length  # like the sets: wanted only where a set is added
    from calc.tables.sets import sets

    there = {(row.shape, row.readings["size"].exact) for row in drawer.rows if "size" in row.readings}
    more: list[dict[str, str]] = []
    known = left_out = 0
    from_memory = False
    for each in [each for key in keys for each in sets() if each.key == key]:
        from_memory = from_memory or each.found.from_memory
        for piece in each.pieces:
            mark = (each.shape, read_length(piece.size).exact)
            if mark in there:
                known += 1
            elif rows + len(more) >= MOST_ROWS:
                left_out += 1
            else:
                there.add(mark)
                more.append(
                    {
                        "name": piece.name,
                        "shape": each.shape,
                        "size": piece.size,
                        "measured": "",
                        "give": "",
                        "count": "1",
                    }
                )
    words = f"{len(more)} added"
    if known:
        words += f", {known} {'was' if known == 1 else 'were'} there already"
    if left_out:
        words += f", {left_out} left out: a drawer holds {MOST_ROWS} rows"
    if from_memory:
        words += ". What is in such a set is from memory: check it against yours"
    return more, words


def _cell(row: PieceRow, key: str, system: str) -> Field:
    label, kind, help_text = ASKED[key]
    fault = row.faults.get(key)
    read = row.read.get(key, "")
    if key == "give":
        read = row.taken_as[system] or read
    return Field(
        f"drawer.{row.place}.{key}",
        label,
        kind,
        row.typed[key][: 5 * LONGEST_ECHO] if fault else row.typed[key],
        default="1" if key == "count" else "",
        unit=LENGTH_UNIT[system] if kind == "length" else "",
        choices=SHAPES if key == "shape" else (),
        help=help_text,
        read=read,
        wrong=fault_from(fault) if fault else None,
    )


def _counted(drawer: Drawer) -> str:
    pieces = sum(piece.count for piece in drawer.pieces)
    measured = sum(piece.count for piece in drawer.pieces if piece.measured)
    many = "1 piece" if pieces == 1 else f"{pieces} pieces"
    return f"{many}, {measured} of them measured" if pieces else ""


def _cautions(drawer: Drawer) -> list[Caution]:
    found = [Caution("care", drawer.note)] if drawer.note else []
    for row in drawer.rows:
        name = row.piece.name if row.piece else f"Piece {row.place + 1}"
        found += [Caution("care", f"{name}: {words}") for words in row.cautions]
    faulty = [row for row in drawer.rows if row.faults]
    if faulty:
        which = ", ".join(
            row.typed["name"].strip()[:LONGEST_ECHO] or f"piece {row.place + 1}" for row in faulty[:5]
        )
        more = " and more" if len(faulty) > 5 else ""
        found.append(Caution("note", f"Left out of the search until corrected: {which}{more}."))
    return found
