"""A stage's steps as a person reads them."""

from __future__ import annotations

from typing import Any


def said_steps(stage: dict[str, Any], system: str = "mm") -> list[str]:
    """The texts of the steps, in their order."""
    return [each["text"][system] for each in stage["steps"]]
