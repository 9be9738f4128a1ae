"""The drawer as fields: one row a piece, each cell answered beside itself."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawer import KEYS, Drawer, Piece, Row, read_drawer
from calc.sheet import Caution, Choice, Field
from calc.stages.form import LENGTH_UNIT, LONGEST_ECHO, fault_from
from calc.tables import drill_size

SHAPES = (
    Choice("round", "round (drill, pin)"),
    Choice("flat", "flat (block)"),
    Choice("leaf", "leaf (feeler)"),
)
ASKED: dict[str, tuple[str, str, str]] = {
    "name": ("Name", "text", ""),
    "shape": ("Shape", "choice", ""),
    "size": ("Sold as", "length", "A size or a drill's name: 4.2, 3/16 in, #7 drill."),
    "measured": ("Measured", "length", "Where it will sit: a drill on its shank, not its margins."),
    "give": ("Known to ±", "length", "Empty: a micrometer read to a tenth, or as sold where not measured."),
    "count": ("How many", "count", ""),
}


@dataclass(frozen=True, slots=True)
class DrawerRead:
    """The drawer's field, its usable pieces, the rows with every unit spelled out, what looks odd."""

    field: Field
    pieces: tuple[Piece, ...]
    normalised: list[dict[str, str]]
    cautions: list[Caution]


def read_pieces(rows: list[object], system: str) -> DrawerRead:
    """Read the drawer as sent; never raises."""
    drawer = read_drawer(rows, LENGTH_UNIT[system], drill_size)
    fields = [[_cell(row, key, system) for key in KEYS] for row in drawer.rows]
    asked = Field(
        "drawer",
        "Your drawer: drills, pins, leaves, blocks",
        "pieces",
        help="What may go into a stack. Measure each piece where it will sit and write it down once.",
        read=_counted(drawer),
        rows=fields,
    )
    return DrawerRead(asked, drawer.pieces, [row.normalised for row in drawer.rows], _cautions(drawer))


def _cell(row: Row, key: str, system: str) -> Field:
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
    return f"{pieces} pieces, {measured} of them measured" if pieces else ""


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
        found.append(Caution("note", f"Left out of the search until mended: {which}{more}."))
    return found
