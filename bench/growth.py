"""How it grows: what takes longer with more pieces, rows, proved cuts (`python -m bench.growth`).

In CPython, as a person's machine does it but for the browser: the ratio of the two stands in the table of
searches. What is made up comes from a seeded generator.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from typing import Any

from bench.search import Chance, drawer
from calc.demo import demo_request
from calc.drawer import Limits, find_stacks
from calc.drawer.stacks import MOST_PIECES
from calc.job import work
from calc.sitting import Sitting

PIECES = (20, 50, 100, 200, 300, 400)
DEPTHS = tuple(range(2, MOST_PIECES + 1))
ROWS = (1, 5, 10, 20, 50)
CUTS = (0, 30, 100, 300, 500)
TRIALS = 3
BAR = "setting.bar_centres"

Line = dict[str, Any]
Request = dict[str, Any]


def _line(name: str, points: list[tuple[int, float]], note: str = "") -> Line:
    return {"name": name, "points": points, "note": note}


def _timed(act: Callable[[], object]) -> float:
    """Milliseconds."""
    begun = time.perf_counter()
    act()
    return (time.perf_counter() - begun) * 1000.0


def searches() -> list[Line]:
    """The stack search by pieces, a line for each depth: the longest of the trials."""
    lines = []
    for depth in DEPTHS:
        points, proved = [], True
        for count in PIECES:
            chance, longest = Chance(f"grow {count} {depth}"), 0.0
            for _ in range(TRIALS):
                pieces, target = drawer(chance, count), chance.randint(1_200_000, 7_000_000)
                begun = time.perf_counter()
                found = find_stacks(pieces, target, Limits(most_pieces=depth))
                longest = max(longest, (time.perf_counter() - begun) * 1000.0)
                proved = proved and found.complete
            points.append((count, longest))
        note = "" if proved else "not all proved best, and said so"
        if depth == MOST_PIECES:
            note = "; ".join(filter(None, (note, "no stack has more")))
        lines.append(_line(f"{depth} deep", points, note))
    return lines


def _request(pieces: int) -> dict[str, Any]:
    """The demonstration with a drawer of so many made-up pieces."""
    made = drawer(Chance(f"drawer {pieces}"), pieces)
    rows = [
        {
            "name": each.name,
            "shape": each.shape,
            "size": f"{each.size_nm / 1e6:.6f} mm",
            "measured": f"{each.size_nm / 1e6:.6f} mm",
            "give": "0.002 mm",
            "count": "1",
        }
        for each in made
    ]
    return {**demo_request(), "drawer": rows}


def _presses(request: Request, change: Callable[[Request, int], Request]) -> list[float]:
    """Medians [ms] of some key presses: to the first part, which has the lead; to the stage; to the whole."""

    def text(of: dict[str, Any]) -> str:
        history = {"history": of.get("history", [])}
        others = {key: part for key, part in of.items() if key != "history"}
        return json.dumps({**others, **history}, separators=(",", ":"))

    def rest() -> None:
        while sitting.more() is not None:
            pass

    sitting = Sitting()
    sitting.ask(text(request))
    rest()
    times = []
    for number in range(1 + 2 * TRIALS):
        said = text(change(request, number))
        first = _timed(lambda: sitting.ask(said, "setting"))  # noqa: B023 (called at once)
        stage = _timed(sitting.more)
        times.append((first, first + stage, first + stage + _timed(rest)))
    return [sorted(column)[TRIALS] for column in zip(*times[1:], strict=True)]


def _bar(request: dict[str, Any], number: int) -> dict[str, Any]:
    return {**request, "entries": {**request["entries"], BAR: f"100.{1 + number}"}}


def _piece(request: dict[str, Any], number: int) -> dict[str, Any]:
    first = {**request["drawer"][0], "measured": f"0.6{number} mm"}
    return {**request, "drawer": [first, *request["drawer"][1:]]}


def _parts(found: list[tuple[int, list[float]]]) -> list[Line]:
    names = ("first part", "the stage", "whole sheet")
    return [
        _line(name, [(count, times[place]) for count, times in found]) for place, name in enumerate(names)
    ]


def measured() -> dict[str, list[Line]]:
    """Every plot's lines by its title; points are [how many, ms]."""
    chart = work(demo_request())
    stage: Any = next(each for each in chart["stages"] if each["id"] == "chart")  # type: ignore[attr-defined]
    figure = next(each for each in stage["figures"] if each["later"])

    def rows(count: int) -> float:
        later = {"figure": figure["id"], "items": figure["later"][:count]}
        return min(_timed(lambda: work({**demo_request(), "later": later})) for _ in range(2))

    record = work(demo_request())["record"]
    cuts = [(count, _presses({**demo_request(), "history": [record] * count}, _bar)) for count in CUTS]
    return {
        "Search by pieces in the drawer": searches(),
        "Key press in the bar's length, by pieces": _parts(
            [(count, _presses(_request(count), _bar)) for count in PIECES]
        ),
        "Key press in a piece, by pieces": _parts(
            [(count, _presses(_request(count), _piece)) for count in PIECES]
        ),
        "Rows of the wall chart": [_line("rows", [(count, rows(count)) for count in ROWS])],
        "Key press in the bar's length, by proved cuts": _parts(cuts),
    }


if __name__ == "__main__":
    print(json.dumps(measured()))
