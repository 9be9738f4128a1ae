"""What must be there: the person's set-ups, job and drawer, as a model apart from the page."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class SetUp:
    """A kept set-up: its name and the length typed into it, which no other job has."""

    name: str
    length: str


@dataclass(slots=True)
class Model:
    """All that is the person's: the newest set-up first."""

    kept: list[SetUp] = field(default_factory=list)
    length: str = ""
    pieces: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    """What was done so far, for the story of a fault."""
    count: int = 0

    def number(self) -> int:
        """A number not used before in these rounds."""
        self.count += 1
        return self.count

    def place(self, name: str) -> int:
        """Where in the list the set-up of this name stands."""
        return [one.name for one in self.kept].index(name)

    def told(self) -> str:
        """The last things done, the newest last."""
        return "; ".join(self.said[-25:])
