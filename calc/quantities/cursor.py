"""A place in a row of tokens, and the one way of refusing.

A reader is a function from a Cursor to a Reading. It refuses by `Cursor.refuse` with candidates for the
offers; `run` keeps of these only what the same reader can read, so that no offer leads into the next fault.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NoReturn

from .reading import Reading, Unreadable
from .scan import Token, scan

_MOST_OFFERS = 4
_MOST_REPAIRS = 4


class Cursor:
    """The tokens of a text and the place reached."""

    __slots__ = ("text", "tokens", "place", "notes")

    def __init__(self, text: str) -> None:
        self.text = text
        self.tokens = scan(text)
        self.place = 0
        self.notes: list[str] = []

    def peek(self, ahead: int = 0) -> Token:
        """The token `ahead` places on, the end token beyond the last."""
        place = self.place + ahead
        return self.tokens[place] if place < len(self.tokens) else self.tokens[-1]

    def take(self) -> Token:
        """The token here, moving past it."""
        token = self.peek()
        if token.kind != "end":
            self.place += 1
        return token

    def typed(self, start: int, end: int) -> str:
        """The text as typed between two places, shortened where it is long."""
        return shortened(self.text[start:end].strip())

    def note(self, text: str) -> None:
        """Adds a note once."""
        if text not in self.notes:
            self.notes.append(text)

    def all_notes(self) -> str:
        """The notes as one text."""
        return "; ".join(self.notes)

    def swap(self, start: int, end: int, new: str) -> str:
        """The whole text with the part between two places replaced: a candidate for an offer."""
        return (self.text[:start] + new + self.text[end:]).strip()

    def refuse(
        self, start: int, end: int, message: str, way_out: str, candidates: tuple[str, ...] = ()
    ) -> NoReturn:
        """Raises Unreadable for the part between two places."""
        raise Unreadable(self.text, start, end, message, way_out, candidates)


def shortened(text: str, most: int = 40) -> str:
    """The text, cut to `most` characters."""
    return text if len(text) <= most else text[: most - 1] + "…"


def run(reader: Callable[[Cursor], Reading], text: str) -> Reading:
    """Reads `text`; raises Unreadable whose offers have all been tried."""
    try:
        return reader(Cursor(text))
    except Unreadable as fault:
        offers: list[str] = []
        for which, candidate in enumerate(fault.offers[:_MOST_OFFERS]):
            offer = _repaired(reader, candidate, which)
            if offer and offer not in offers:
                offers.append(offer)
        fault.offers = tuple(offers)
        raise fault from None


def _repaired(reader: Callable[[Cursor], Reading], candidate: str, which: int) -> str:
    """The candidate, with further faults of the same sort mended the same way; "" if it stays unreadable."""
    for _ in range(_MOST_REPAIRS):
        try:
            reader(Cursor(candidate))
        except Unreadable as fault:
            if not fault.offers:
                return ""
            candidate = fault.offers[min(which, len(fault.offers) - 1)]
        else:
            return candidate
    return ""
