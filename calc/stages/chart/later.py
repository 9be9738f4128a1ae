"""Rows of a table that takes long to work out, asked for some at a time by the request's `later`."""

from __future__ import annotations

from collections.abc import Mapping

from calc.sheet import Problem, Row
from calc.stages import chart
from calc.stages.common.form import LONGEST_ECHO
from calc.stages.common.job_facts import Job
from calc.stages.setting import bench_of

MOST_ITEMS = 50
"""Rows worked out in one call: more would keep a person's next entry waiting."""
ID = "later"


def rows_later(told: object, job: Job) -> tuple[list[Row], list[Problem]]:
    """The rows for the items told, in their order; an item that is not known gets a problem and no row.

    told: a figure's id and the keys of some of its rows, as its `later` names them.
    """
    figure = told.get("figure") if isinstance(told, Mapping) else None
    items = told.get("items") if isinstance(told, Mapping) else None
    if figure != chart.FIGURE or not isinstance(items, list):
        return [], [
            Problem(ID, "The rows asked for are not clear.", f"Name a table, such as {chart.FIGURE}.")
        ]
    problems: list[Problem] = []
    if len(items) > MOST_ITEMS:
        problems.append(
            Problem(
                ID,
                f"{len(items)} rows were asked for at once; the first {MOST_ITEMS} were worked out.",
                "Ask for the others by themselves.",
            )
        )
    names = [item for item in items[:MOST_ITEMS] if isinstance(item, str)]
    for _ in range(min(len(items), MOST_ITEMS) - len(names)):
        problems.append(Problem(ID, "A row was asked for by something that is not a name.", "Name a taper."))
    bench = bench_of(job)
    refused = chart.refusal(bench)
    if bench is None or refused:
        return [], [*problems, Problem(ID, refused, "Then the chart can be worked out.")]
    rows, unknown = chart.rows(bench, names, job.system)
    for name in unknown:
        problems.append(Problem(ID, f"No taper is called “{name[:LONGEST_ECHO]}”.", "It was left out."))
    return rows, problems
