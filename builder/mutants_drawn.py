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
import sys
from collections import defaultdict
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
    """Leave `count` changes of the session to be tried, one a place."""
    work_db: Any = importlib.import_module("cosmic_ray.work_db")
    work_item: Any = importlib.import_module("cosmic_ray.work_item")
    left_out: dict[Path, list[Span]] = {}
    with work_db.use_db(session) as database:
        places: dict[tuple[str, tuple[int, int]], list[tuple[str, str]]] = defaultdict(list)
        items = list(database.work_items)
        for item in items:
            change = item.mutations[0]
            file, at = Path(change.module_path), tuple(change.start_pos)
            spans = left_out.setdefault(file, _without_effect(file))
            if _LEFT_OUT.match(change.operator_name) or any(start <= at <= end for start, end in spans):
                continue
            places[str(file), at].append((f"{change.operator_name} {change.occurrence}", item.job_id))
        chance = random.Random(seed)
        ordered = sorted(places)
        sample = chance.sample(ordered, min(count, len(ordered)))
        chosen = {chance.choice(sorted(places[each]))[1] for each in sample}
        skipped = work_item.WorkResult(worker_outcome=work_item.WorkerOutcome.SKIPPED)
        database.set_multiple_results([i.job_id for i in items if i.job_id not in chosen], skipped)
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
