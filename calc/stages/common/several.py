"""The field of which several choices may be picked at once: values with commas between."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from calc.sheet import Choice, Fault, Field
from calc.stages.common.form import LONGEST_ECHO, Form, fault_in

MOST_NAMED = 5
"""Names that were not understood, said back in one fault."""
MOST_OFFERS = 12


def several(
    form: Form,
    name: str,
    label: str,
    choices: Sequence[tuple[str, str]],
    *,
    default: Sequence[str],
    help: str = "",
) -> list[str]:
    """The values picked, in the order typed, each once; `default` where nothing is typed.

    Capitals and blanks do not matter, and a semicolon is as good as a comma. What is not among the choices is
    named beside the field; the rest is used.
    """
    typed = form.entries.get(name, "")
    by_key = {_key(value): value for value, _ in choices}
    found: list[str] = []
    unknown: list[tuple[int, str]] = []
    place = 0
    for part in typed.replace(";", ",").split(","):
        value = by_key.get(_key(part))
        if value is None and part.strip():
            unknown.append((place + len(part) - len(part.lstrip()), part.strip()))
        elif value is not None and value not in found:
            found.append(value)
        place += len(part) + 1
    values = [value for value, _ in choices]
    wrong = _fault(typed, unknown, found, values) if unknown else None
    asked = Field(
        name,
        label,
        "several",
        typed if unknown else ", ".join(found),
        ", ".join(default),
        choices=[Choice(value, shown) for value, shown in choices],
        help=help,
        wrong=wrong,
    )
    form.put(asked, ", ".join(found) or None)
    return found if found or unknown else list(default)


def _key(text: str) -> str:
    return "".join(text.split()).casefold()


def _fault(typed: str, unknown: list[tuple[int, str]], found: list[str], values: list[str]) -> Fault:
    named = ", ".join(f"“{text[:LONGEST_ECHO]}”" for _, text in unknown[:MOST_NAMED])
    more = " and more" if len(unknown) > MOST_NAMED else ""
    start, first = unknown[0]
    offers = values[:MOST_OFFERS]
    if found:
        way_out = f"The others are used: {', '.join(found)}."
        offers = [", ".join(found)]
    else:
        way_out = "Pick from: " + ", ".join(offers)
    message = f"{named}{more} {'is' if len(unknown) == 1 else 'are'} not among the choices here"
    return replace(fault_in(typed, message, way_out, start, start + len(first)), offers=offers)
