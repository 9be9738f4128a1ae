"""Tables for a terminal and for a spreadsheet: plain text, no knowledge of what stands in them."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence


def harmless(cell: str) -> str:
    """The cell as a spreadsheet may have it: what a piece was named must not run there as a formula."""
    if cell[:1] not in tuple("=+-@\t"):
        return cell
    try:
        float(cell.split()[0])
    except (ValueError, IndexError):
        return "'" + cell
    return cell


def _is_number(cell: str) -> bool:
    """True for a number with or without its sign and unit, an angle told twice, or the dash of none."""
    return cell[:1] in tuple("0123456789+-±–") and len(cell.lstrip("± ").split()) <= 2


def aligned(columns: Sequence[str], rows: Sequence[Sequence[str]], width: int) -> list[str]:
    """The table in columns, `width` characters in all: the widest are broken into lines until all fit.

    Numbers stand to the right of their column. Two blanks stand between columns.
    """
    across = range(len(columns))
    widths = [
        max([len(row[at]) for row in rows] + [len(word) for word in columns[at].split()]) for at in across
    ]
    room = width - 2 * (len(columns) - 1)
    while sum(widths) > room:
        widths[widths.index(max(widths))] -= 1
    numeric = [all(_is_number(row[at]) for row in rows) for at in across]
    lines: list[str] = []
    for row in (columns, ["-" * wide for wide in widths], *rows):
        parts = [textwrap.wrap(row[at], widths[at]) or [""] for at in across]
        for line in range(max(map(len, parts))):
            cells = [part[line] if line < len(part) else "" for part in parts]
            placed = [
                cell.rjust(wide) if right else cell.ljust(wide)
                for cell, wide, right in zip(cells, widths, numeric, strict=True)
            ]
            lines.append("  ".join(placed).rstrip())
    return lines
