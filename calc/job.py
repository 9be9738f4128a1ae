"""The one way through: a request goes in, the stages answer in order, a sheet comes out.

`work` is pure and total: whatever a person types or a damaged link holds, it
answers with a sheet and says beside each thing what is wrong with it.
"""

from __future__ import annotations

import json
from collections.abc import Mapping

from calc.sheet import Problem, as_plain
from calc.stages import STAGES_ASK, run_stages
from calc.stages.form import LONGEST_ECHO
from calc.stages.later import rows_later
from calc.stages.pieces import set_choices

FORMAT = 1
SYSTEMS = ("mm", "inch")
LONGEST_REQUEST = 2_000_000
MOST_ENTRIES = 500
LONGEST_ENTRY = 20_000
DEEPEST = 60
FEW_BRACKETS = 400
"""So few brackets cannot nest deep enough to matter: only longer requests are looked through."""
MOST_SETS = 40
REQUEST_KEYS = ("format", "units", "entries", "drawer", "history", "name", "invented", "later", "add")


def work(request: object) -> dict[str, object]:
    """The sheet for a request (see the project's notes for both shapes).

    A request with `later` is answered with these rows of a table instead of stages; `add` puts sets into the
    drawer. Never raises on anything JSON can hold.
    """
    problems: list[Problem] = []
    if not isinstance(request, Mapping):
        problems.append(
            Problem(
                "",
                "The job could not be read: it is not a set of named entries.",
                "Start a new job, or open another link.",
            )
        )
        request = {}
    _check_frame(request, problems)
    system = _system(request, problems)
    entries = _entries(request.get("entries"), problems)
    drawer = request.get("drawer")
    if drawer is not None and not isinstance(drawer, list):
        problems.append(
            Problem(
                "drawer", "The drawer could not be read: it is not a list of pieces.", "Add the pieces again."
            )
        )
        drawer = None
    if request.get("later") is not None:
        rows, found = rows_later(request["later"], entries, drawer or [], system)
        return {
            "format": FORMAT,
            "units": system,
            "stages": [],
            "problems": as_plain([*problems, *found]),
            "entries": {},
            "drawer": [],
            "rows": as_plain(rows),
        }
    add = _sets(request.get("add"), problems)
    stages, normalised, pieces = run_stages(entries, drawer or [], system, add)
    return {
        "format": FORMAT,
        "units": system,
        "stages": as_plain(stages),
        "problems": as_plain(problems),
        "entries": normalised,
        "drawer": pieces,
    }


def work_text(text: str) -> str:
    """`work` on JSON text, answering in JSON text; never raises."""
    request: object = None
    if len(text) <= LONGEST_REQUEST and not _too_deep(text):
        try:
            request = json.loads(text)
        except (ValueError, RecursionError):
            request = None
    return json.dumps(work(request), separators=(",", ":"))


def _too_deep(text: str) -> bool:
    """Whether brackets nest deeper than any job does: a browser's stack may end before Python can say so."""
    if text.count("[") + text.count("{") <= FEW_BRACKETS:
        return False
    depth, inside, escaped = 0, False, False
    for letter in text:
        if escaped:
            escaped = False
        elif inside:
            inside, escaped = letter != '"', letter == "\\"
        elif letter == '"':
            inside = True
        elif letter in "[{":
            depth += 1
            if depth > DEEPEST:
                return True
        elif letter in "]}":
            depth -= 1
    return False


def _check_frame(request: Mapping[object, object], problems: list[Problem]) -> None:
    told = request.get("format", FORMAT)
    if request and (isinstance(told, bool) or told != FORMAT):
        problems.append(
            Problem(
                "format",
                f"This job says it is of format {_echo(told)}; this Conewright reads format 1.",
                "What could be read is shown. A newer Conewright may read the rest.",
            )
        )
    for key in request:
        if key not in REQUEST_KEYS:
            problems.append(
                Problem(_echo(key), f"Nothing here is called “{_echo(key)}”.", "It was left aside.")
            )


def _system(request: Mapping[object, object], problems: list[Problem]) -> str:
    told = request.get("units", SYSTEMS[0])
    if told in SYSTEMS and isinstance(told, str):
        return told
    problems.append(Problem("units", f"Units “{_echo(told)}” are not known.", "Use mm or inch. Shown in mm."))
    return SYSTEMS[0]


def _entries(told: object, problems: list[Problem]) -> dict[str, str]:
    """The entries as texts; what is not one is named and left aside."""
    if told is None:
        return {}
    if not isinstance(told, Mapping):
        problems.append(
            Problem("entries", "The entries could not be read: they are not named.", "Type them again.")
        )
        return {}
    entries: dict[str, str] = {}
    for count, (name, value) in enumerate(told.items()):
        if count >= MOST_ENTRIES:
            problems.append(Problem("entries", f"Only the first {MOST_ENTRIES} entries were read.", ""))
            break
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            value = repr(value)
        if not isinstance(value, str):
            problems.append(Problem(_echo(name), f"“{_echo(name)}” does not hold a text.", "Type it again."))
        elif name not in STAGES_ASK:
            if value.strip():
                problems.append(
                    Problem(
                        _echo(name),
                        f"No stage asks for “{_echo(name)}”; it was left aside.",
                        "It may come from a newer Conewright, or the link is damaged.",
                    )
                )
        else:
            entries[str(name)] = value[:LONGEST_ENTRY]
    return entries


def _sets(told: object, problems: list[Problem]) -> list[str]:
    """The keys of the sets to put into the drawer; what is none is named and left aside."""
    if told is None:
        return []
    if not isinstance(told, list):
        problems.append(Problem("add", "What to add to the drawer is not a list of sets.", "Pick a set."))
        return []
    known = {choice.value for choice in set_choices()}
    keys: list[str] = []
    for each in told[:MOST_SETS]:
        if isinstance(each, str) and each in known:
            keys.append(each)
        else:
            name = _echo(each) if isinstance(each, str) else "?"
            problems.append(
                Problem("add", f"No set of pieces is called “{name}”.", "Pick one of those listed.")
            )
    if len(told) > MOST_SETS:
        problems.append(Problem("add", f"Only the first {MOST_SETS} sets were looked at.", "Add the others."))
    return keys


def _echo(value: object) -> str:
    return str(value)[:LONGEST_ECHO]
