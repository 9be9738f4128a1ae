"""What is read while something is worked out, noted: while that stays, it need not be worked out again.

Nothing has to be declared for it: a stage reads entries, parts of what was sent, and facts and forms of
stages as always, and each reading leaves a note.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from calc.stages import Sent
from calc.stages.common.form import Form

PARTS = frozenset(("system", "drawer", "add", "observations", "history"))
"""What was sent beside the entries, which are noted one by one."""


@dataclass(slots=True)
class Readings:
    """What was read while something was worked out.

    entries: by name, None where there was none. every: all of them, where they were gone through. sent: parts
    of what was sent, by name. facts: by type. forms: by stage, as its work left it.
    """

    entries: dict[str, str | None] = field(default_factory=dict)
    every: dict[str, str] | None = None
    sent: dict[str, object] = field(default_factory=dict)
    facts: dict[type, object] = field(default_factory=dict)
    forms: dict[str, Form] = field(default_factory=dict)


@dataclass(slots=True)
class Watch:
    """Where readings are noted just now; None while nobody wants to know."""

    readings: Readings | None = None


class Entries(Mapping[str, str]):
    """The entries of the request in hand: one object for a whole sitting, so that who holds it sees them."""

    def __init__(self, watch: Watch) -> None:
        self.now: Mapping[str, str] = {}
        self._watch = watch

    def __getitem__(self, name: str) -> str:
        found = self.now.get(name)
        if self._watch.readings is not None:
            self._watch.readings.entries[name] = found
        if found is None:
            raise KeyError(name)
        return found

    def __iter__(self) -> Iterator[str]:
        if self._watch.readings is not None:
            self._watch.readings.every = dict(self.now)
        return iter(self.now)

    def __len__(self) -> int:
        if self._watch.readings is not None:
            self._watch.readings.every = dict(self.now)
        return len(self.now)


class WatchedSent(Sent):
    """What was sent with the request in hand: likewise one object for a whole sitting."""

    __slots__ = ("_now", "_watch")

    def __init__(self, watch: Watch) -> None:
        super().__init__(Entries(watch))
        object.__setattr__(self, "_watch", watch)
        object.__setattr__(self, "_now", Sent({}))

    def __getattribute__(self, name: str) -> object:
        of = object.__getattribute__
        if name not in PARTS:
            return of(self, name)
        part: object = of(of(self, "_now"), name)
        readings = of(self, "_watch").readings
        if readings is not None:
            readings.sent[name] = part
        return part

    def take(self, now: Sent) -> None:
        """Hold what was sent now. Parts that are as before should be the same objects."""
        entries = object.__getattribute__(self, "entries")
        assert isinstance(entries, Entries)
        entries.now = now.entries
        object.__setattr__(self, "_now", now)

    def still(self, readings: Readings) -> bool:
        """Whether all that was read of what was sent stands as it was."""
        of = object.__getattribute__
        now = of(self, "_now")
        entries = now.entries
        return (
            all(_same(of(now, name), part) for name, part in readings.sent.items())
            and (readings.every is None or readings.every == entries)
            and all(entries.get(name) == text for name, text in readings.entries.items())
        )


def _same(now: object, before: object) -> bool:
    return now is before or (isinstance(now, str) and now == before)
