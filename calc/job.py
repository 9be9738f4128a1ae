"""The one way through: a request goes in, the stages answer in order, a sheet comes out.

`work` is pure and total: whatever a person types or a damaged link holds, it
answers with a sheet and says beside each thing what is wrong with it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from calc.sheet import Problem, Stage, as_plain
from calc.stages import STAGES_ASK, Job, Sent, glance, job_cautions, route, run_stages
from calc.stages.chart.later import rows_later
from calc.stages.common.form import LONGEST_ECHO
from calc.stages.common.history import History, read_history
from calc.stages.common.observations import Observations, read_observations
from calc.stages.setting.pieces import rows_of_lines, set_choices

FORMAT = 1
SYSTEMS = ("mm", "inch")
LONGEST_REQUEST = 2_000_000
"""Characters of JSON text; a job with the fullest drawer has a tenth of that."""
MOST_NAMED = 20
"""Unknown entries, keys or sets that are named one by one; the others are counted."""
LONGEST_ENTRY = 20_000
LARGEST_NUMBER = 10**15
"""A whole number beyond this is no measure, and may be too long to be printed."""
LOG10_OF_2 = 0.30103
DEEPEST = 60
FEW_BRACKETS = 400
"""So few brackets cannot nest deep enough to matter: only longer requests are looked through."""
_STRING, _BETWEEN, _INNERMOST = r'"(?:[^"\\]|\\[\s\S])*"', r"[^][{}]+", r"(?:\[\]|\{\})+"
MOST_SETS = 40
NOT_READ = Problem(
    "",
    "The job could not be read: it is not a set of named entries.",
    "Start a new job, or open another link.",
)
REQUEST_KEYS = (
    *("format", "units", "entries", "drawer", "observations", "history", "name", "invented"),
    *("later", "add", "add_lines"),
)


def work(request: object) -> dict[str, object]:
    """The sheet for a request (see the project's notes for both shapes).

    A request with `later` is answered with these rows of a table instead of stages; `add` puts sets into the
    drawer, `add_lines` pieces written one a line. Never raises on anything JSON can hold.
    """
    problems: list[Problem] = []
    if not isinstance(request, Mapping):
        problems.append(NOT_READ)
        request = {}
    return _answer(request, problems)


def _answer(request: Mapping[object, object], problems: list[Problem]) -> dict[str, object]:
    """The sheet for a request, with what was found wrong before it could be looked at."""
    sent = sent_with(request, problems)
    if request.get("later") is not None:
        rows, found = rows_later(request["later"], Job(sent))
        return {
            "format": FORMAT,
            "units": sent.system,
            "stages": [],
            "problems": as_plain([*problems, *found]),
            "entries": {},
            "drawer": [],
            "rows": as_plain(rows),
        }
    lines = rows_of_lines(request.get("add_lines"), sent.system)
    job = Job(replace(sent, drawer=[*sent.drawer, *lines.rows]))
    stages = run_stages(job)
    return {
        "format": FORMAT,
        "units": sent.system,
        "stages": as_plain(stages),
        "route": route(stages),
        **around(stages, job, problems),
        # Whoever asked may do with it as they like; what is remembered of the drawer stays.
        "drawer": [dict(row) for row in job.rows.get("drawer", [])],
        **({"lines": as_plain(lines.answers)} if lines.answers else {}),
    }


def sent_with(
    request: Mapping[object, object],
    problems: list[Problem],
    observations: Callable[[object, str], Observations] = read_observations,
    history: Callable[[object], History] = read_history,
) -> Sent:
    """What was sent, checked; what is wrong with it joins the problems.

    observations, history: how these are read; one who asks often need not read them anew each time.
    """
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
        return Sent(entries, system, drawer or [])
    add = _sets(request.get("add"), problems)
    seen = observations(request.get("observations"), system)
    proved = history(request.get("history"))
    problems += [*seen.problems, *proved.problems]
    return Sent(entries, system, drawer or [], add, seen, proved)


def around(stages: Sequence[Stage], job: Job, problems: Sequence[Problem]) -> dict[str, object]:
    """All that stands on the sheet beside the stages and the route."""
    return {
        "cautions": as_plain(job_cautions(stages)),
        "glance": glance(stages),
        "problems": as_plain(problems),
        "entries": job.normalised(),
        "defaults": {**job.in_force(), **job.sent.observations.defaults},
        "drawer": job.rows.get("drawer", []),
        "observations": job.sent.observations.normalised,
        "history": job.sent.history.records,
        "record": as_plain(job.record),
    }


def work_text(text: str) -> str:
    """`work` on JSON text, answering in JSON text; never raises."""
    if len(text) > LONGEST_REQUEST:
        return as_text(_answer({}, [_too_long(len(text))]))
    return as_text(work(request_in(text)))


def request_in(text: str, many: bool | None = None) -> object:
    """What the text holds; None where it is no JSON, or nests deeper than any job does.

    many: whether the whole has so many brackets that they are looked through, where this is a part of it.
    """
    if many_brackets(text) if many is None else many:
        if _too_deep(text):
            return None
    try:
        request: object = json.loads(text)
    except (ValueError, RecursionError):
        return None
    return request


def as_text(sheet: object) -> str:
    """Plain things as the JSON text that crosses to the page."""
    return json.dumps(sheet, separators=(",", ":"))


def _too_long(letters: int) -> Problem:
    return Problem(
        "",
        f"The job is too long to be read: it holds {letters / 1e6:.1f} MB, and at most"
        f" {LONGEST_REQUEST / 1e6:.0f} MB are read.",
        "No job needs as much: take out what is longest, or open the job from where it was kept.",
    )


def many_brackets(text: str) -> bool:
    """Whether there are enough brackets to nest deep."""
    return text.count("[") + text.count("{") > FEW_BRACKETS


def _too_deep(text: str) -> bool:
    """Whether brackets nest deeper than any job does: a browser's stack may end before Python can say so.

    Brackets that do not match count as well: such a text cannot be read either.
    """
    bare = re.sub(_BETWEEN, "", re.sub(_STRING, "", text))
    for _ in range(DEEPEST):
        if not bare:
            break
        bare = re.sub(_INNERMOST, "", bare)
    return bool(bare)


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
    unknown = [key for key in request if key not in REQUEST_KEYS]
    for key in unknown[:MOST_NAMED]:
        problems.append(Problem(_echo(key), f"Nothing here is called “{_echo(key)}”.", "It was left aside."))
    if len(unknown) > MOST_NAMED:
        problems.append(_others(len(unknown) - MOST_NAMED, ""))


def _others(count: int, name: str) -> Problem:
    """The rest of a long list of what is not known, counted instead of recited."""
    return Problem(name, f"{count} more are not known here either.", "They were left aside.")


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
    wrong: list[Problem] = []
    left = 0
    for name, value in told.items():
        text = _text(value)
        if name in STAGES_ASK and text is not None:
            entries[str(name)] = text[:LONGEST_ENTRY]
        elif text is not None and not text.strip():
            continue
        elif len(wrong) >= MOST_NAMED:
            left += 1
        elif text is None:
            wrong.append(Problem(_echo(name), f"“{_echo(name)}” does not hold a text.", "Type it again."))
        else:
            wrong.append(
                Problem(
                    _echo(name),
                    f"No stage asks for “{_echo(name)}”; it was left aside.",
                    "It may come from a newer Conewright, or the link is damaged.",
                )
            )
    problems += wrong
    if left:
        problems.append(_others(left, "entries"))
    return entries


def _text(value: object) -> str | None:
    """What a person or a number says; None for anything else."""
    if isinstance(value, str):
        return value
    if isinstance(value, float):
        return repr(value)
    if isinstance(value, int) and not isinstance(value, bool):
        return _digits(value)
    return None


def _digits(value: int) -> str:
    """A whole number in digits; one too long to be a measure, or to be printed at all, by its magnitude."""
    if abs(value) < LARGEST_NUMBER:
        return str(value)
    return f"{'-' if value < 0 else ''}1e{int(value.bit_length() * LOG10_OF_2)}"


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
        problems.append(
            Problem(
                "add",
                f"{len(told)} sets were to be added; the first {MOST_SETS} were looked at.",
                "Add the others by themselves.",
            )
        )
    return keys


def _echo(value: object) -> str:
    """What was sent, said back in a few letters, whatever it is: no more of it is looked at than is shown."""
    if isinstance(value, (list, tuple)):
        return "a list"
    if isinstance(value, Mapping):
        return "a set of names"
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    text = _text(value)
    return "something else" if text is None else text[:LONGEST_ECHO]
