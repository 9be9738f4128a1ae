"""Rows of fields: each cell asked and answered beside itself, by the same asks as any other entry."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from calc.doubt.asks import Ask
from calc.quantities import Reading
from calc.rows import SentRow
from calc.sheet import Fault, Field
from calc.stages.common.form import Entry, Form

NOT_A_TEXT = Fault("this is neither text nor a number", way_out="Type it again.")
Reader = Callable[[str, str], Reading]


class RowForm:
    """The form of one row: its asks are named by the row's keys, its fields by list, place and key."""

    def __init__(self, list_id: str, row: SentRow, system: str) -> None:
        self.row = row
        self.entries: dict[str, Entry] = {}
        self._before = f"{list_id}.{row.place}."
        self._form = Form({self._before + key: text for key, text in row.texts.items()}, system)

    @property
    def fields(self) -> list[Field]:
        """What was asked so far."""
        return self._form.fields

    @property
    def wrong(self) -> bool:
        """True where a cell asked so far bears a fault."""
        return self._form.wrong

    def ask(self, ask: Ask) -> Entry:
        """Ask for the cell that the ask's id names."""
        entry = self._form.ask(replace(ask, id=self._before + ask.id))
        if ask.id in self.row.odd:
            self.refuse(ask.id, NOT_A_TEXT.message, NOT_A_TEXT.way_out)
            entry = replace(entry, wrong=True)
        self.entries[ask.id] = entry
        return entry

    def refuse(self, key: str, message: str, way_out: str) -> None:
        """Mark a cell that reads well but cannot stand."""
        self._form.refuse(self._before + key, message, way_out)

    def in_force(self) -> dict[str, str]:
        """Defaults that stand for empty cells and would be others in the other system, by field."""
        return self._form.in_force()

    def normalised(self) -> dict[str, str]:
        """The row again, with the units of what was asked and read spelled out; empty cells are left out."""
        texts: Mapping[str, str] = {
            key: self._form.normalised.get(self._before + key, text) for key, text in self.row.texts.items()
        }
        return {key: text for key, text in texts.items() if text.strip()}
