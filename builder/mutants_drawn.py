"""Run by the private Python beside Cosmic Ray: draw which of a session's changes are tried, and report.

One change a place, places drawn by a seed. Left out are changes that any test would notice, which would only
make the share look better (`<<` and `|` between numbers, a data class without its decorator), and those that
change nothing at run time: annotations, where `|` between types is no calculation, and the guards `frozen`,
`slots` and `strict`, which only a slip in the source would meet.
"""

from __future__ import annotations

import ast
import importlib
import random
import re
import sqlite3
import sys
from collections import defaultdict
from contextlib import closing
from pathlib import Path
from typing import Any

_LEFT_OUT = re.compile(
    r"core/(ReplaceBinaryOperator_(.*_(RShift|LShift|BitOr|BitAnd|BitXor)|(BitOr|BitAnd|BitXor|RShift|LShift)_.*)"
    r"|ReplaceComparisonOperator_.*_(Is|IsNot)|ReplaceComparisonOperator_(Is|IsNot)_(?!Is).*|RemoveDecorator"
    r"|ReplaceUnaryOperator_.*_(Invert|Not)|ExceptionReplacer)$"
)
_GUARDS = ("frozen", "slots", "strict")
Span = tuple[tuple[int, int], tuple[int, int]]


def _without_effect(file: Path) -> list[Span]:
    """Where a module's annotations and guards stand."""
    found: list[Span] = []
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        parts = [getattr(node, "annotation", None), getattr(node, "returns", None)]
        if isinstance(node, ast.keyword) and node.arg in _GUARDS:
            parts = [node.value]
        for part in parts:
            if isinstance(part, ast.expr):
                end = (part.end_lineno or part.lineno, part.end_col_offset or 0)
                found.append(((part.lineno, part.col_offset), end))
    return found


def draw(session: str, count: int, seed: int) -> None:
    """Leave `count` changes of the session to be tried, one a place; the others go.

    Asked of the file itself: the tool takes minutes to list some thousand changes.
    """
    left_out: dict[Path, list[Span]] = {}
    places: dict[tuple[str, tuple[int, int]], list[tuple[str, str]]] = defaultdict(list)
    with closing(sqlite3.connect(session)) as file, file:
        asked = (
            "SELECT module_path, operator_name, occurrence, start_pos_row, start_pos_col, job_id"
            " FROM mutation_specs"
        )
        for path, operator, occurrence, row, column, job in file.execute(asked):
            module, at = Path(path), (row, column)
            if module not in left_out:
                left_out[module] = _without_effect(module)
            if _LEFT_OUT.match(operator) or any(start <= at <= end for start, end in left_out[module]):
                continue
            places[str(module), at].append((f"{operator} {occurrence}", job))
        chance = random.Random(seed)
        ordered = sorted(places)
        sample = chance.sample(ordered, min(count, len(ordered)))
        chosen = {chance.choice(sorted(places[each]))[1] for each in sample}
        file.execute("CREATE TEMP TABLE chosen (job_id)")
        file.executemany("INSERT INTO chosen VALUES (?)", [(job,) for job in sorted(chosen)])
        for table in ("mutation_specs", "work_items"):
            file.execute(f"DELETE FROM {table} WHERE job_id NOT IN (SELECT job_id FROM chosen)")
    print(f"  {len(ordered)} places that can be changed; {len(chosen)} drawn with seed {seed}")


def report(session: str) -> None:
    """Print how many changes were noticed, and those that were not."""
    work_db: Any = importlib.import_module("cosmic_ray.work_db")
    with work_db.use_db(session) as database:
        done = [(item, result) for item, result in database.completed_work_items if result.test_outcome]
        left = [(item, result) for item, result in done if not result.is_killed]
        for item, result in left:
            change = item.mutations[0]
            print(f"\n{change.module_path}:{change.start_pos[0]} {change.operator_name} {change.occurrence}")
            lines = (result.diff or "").splitlines()
            print("\n".join(line for line in lines if line[:1] in "+-" and line[1:2] not in "+-"))
        share = 100.0 * (len(done) - len(left)) / len(done) if done else 0.0
        print(f"\n{len(done) - len(left)} of {len(done)} changes noticed ({share:.0f} %)")


if __name__ == "__main__":
    if sys.argv[1] == "draw":
        draw(sys.argv[2], int(sys.argv[3]), int(sys.argv[4]))
    else:
        report(sys.argv[2])
