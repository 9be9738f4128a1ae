"""Rows as they are sent, of a drawer or of what was seen: texts by key, whatever came."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

LONGEST_CELL = 20_000
"""Letters kept of a cell: far beyond what is read as a measure, so that what is cut is refused."""
LARGEST_NUMBER = 10**15
"""A whole number beyond this is no measure, and may be too long to be printed."""


@dataclass(frozen=True, slots=True)
class SentRow:
    """One row.

    place: from 0. texts: by key, "" where nothing was sent. odd: keys that held neither a text nor a number.
    unknown: keys that nobody asks for. is_row: False where it was no row at all.
    """

    place: int
    texts: Mapping[str, str]
    odd: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()
    is_row: bool = True


def sent_row(sent: object, place: int, keys: Sequence[str]) -> SentRow:
    """The texts of one row; never raises, whatever it is."""
    if not isinstance(sent, Mapping):
        return SentRow(place, dict.fromkeys(keys, ""), is_row=False)
    texts = {key: _text(sent.get(key)) for key in keys}
    odd = tuple(key for key, text in texts.items() if text is None)
    unknown = tuple(str(key) for key in sent if key not in texts)
    return SentRow(place, {key: text or "" for key, text in texts.items()}, odd, unknown)


def _text(value: object) -> str | None:
    """A cell's text; numbers are taken as text, None for anything else that is not one."""
    if value is None:
        return ""
    if isinstance(value, str):
        return value[:LONGEST_CELL]
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return None
    # A float prints as what JSON held; a huge whole number would take long to print, and is no size.
    text = str(value) if isinstance(value, float) or abs(value) < LARGEST_NUMBER else "1e15"
    return text.removesuffix(".0")
