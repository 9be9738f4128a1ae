"""How much of what Conewright says was checked against values from outside, by source; and what was not."""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from builder.places import CORE, ROOT

PUBLISHED = ROOT / "tests" / "published"
OWN_WORDS = ("from memory", "from_memory")


def _rows(file: Path) -> list[dict[str, str]]:
    with file.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def _word(row: dict[str, str]) -> str:
    """How sure an outside row is: published, derived from one, wrong as printed, or from memory."""
    if row.get("disagreement"):
        return "disagree, recorded"
    if row.get("status", "agrees") not in ("", "agrees"):
        return row["status"].replace("_", " ")
    told = row.get("confidence") or "published"
    if any(word in row["source"] for word in OWN_WORDS):
        told = "from memory"
    return told.replace("_", " ")


def kinds() -> Iterator[tuple[str, int, int, Counter[str]]]:
    """Each file of outside rows: its name, how many rows, from how many sources, and how sure they are."""
    for file in sorted(PUBLISHED.glob("*.csv")):
        rows = _rows(file)
        sources = {row["source"] for row in rows}
        yield file.stem.replace("_", " "), len(rows), len(sources), Counter(_word(row) for row in rows)


def series() -> Iterator[tuple[str, int, int, Counter[str]]]:
    """Each family of tapers: its name, rows in its table, rows from outside, how sure its own rows are."""
    outside = Counter(
        row["series"] for file in PUBLISHED.glob("*.csv") for row in _rows(file) if row.get("series")
    )
    found: dict[str, Counter[str]] = {}
    for file in sorted((CORE / "tables").glob("*.csv")):
        for row in _rows(file):
            if row.get("series") and row.get("datum") and row.get("confidence"):
                found.setdefault(row["series"], Counter())[row["confidence"].replace("_", " ")] += 1
    for name, sure in sorted(found.items()):
        yield name, sure.total(), outside[name], sure


def sure_words(counted: Counter[str]) -> str:
    return ", ".join(f"{count} {word}" for word, count in counted.most_common())


def report() -> str:
    """Both lists as text; a family without an outside row says so."""
    lines = ["Rows from outside that the results are checked against, by kind:"]
    for name, rows, sources, sure in kinds():
        where = "1 source" if sources == 1 else f"{sources} sources"
        lines.append(f"  {name:<22}{rows:>4} rows from {where}: {sure_words(sure)}")
    lines.append("Families of tapers: rows of their tables, and rows from outside beside them:")
    for name, rows, outside, sure in series():
        beside = f"{outside} from outside" if outside else "none from outside"
        lines.append(f"  {name:<22}{rows:>4} rows ({sure_words(sure)}); {beside}")
    return "\n".join(lines)
