"""The job at a glance: what one screen shows, as ids of figures and a few short words.

The page that shows it knows no figure by name; what leads, and what stands beside it, is said here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from calc.gauging.judge import CHANGE
from calc.sheet import Both, Field, Figure, Stage, same

SET_IN, PROVED_IN = "setting", "proving"
BAR = "bar"
"""The way whose name is its bar's."""
RIGHT = "proving.right"
"""The step that puts the angle right."""
DANGER = "Eyes covered, key out. Spindle stopped and isolated before hands go in."
WORDS: tuple[tuple[str, str], ...] = (
    ("setting.pin", "under {}"),
    ("setting.swing", "swing {}"),
    ("setting.towards", "towards {}"),
    ("setting.sweep_side", "sweep the {}"),
)
"""Figures that say where and which way, each with the word that makes a phrase of it."""
ROWS: tuple[tuple[str, str], ...] = (
    ("proving.decision", "Proving says"),
    ("proving.inside_grade", "Inside the limit"),
    ("setting.error_on_diameter", "Error on Ø"),
    ("setting.chance", "Right at the first cut"),
)
CHANGE_WORDS: tuple[tuple[str, str], ...] = (("proving.tap_from", "by an indicator {} from its pivot"),)
CHANGE_ROWS: tuple[tuple[str, str], ...] = (
    ("proving.chance_now", "Right, left alone"),
    ("proving.chance_changed", "Right, changed so"),
)
MOST_ROWS = 2
SYSTEMS = ("mm", "inch")


def glance(stages: Sequence[Stage]) -> dict[str, object]:
    """What leads this job: title, the number to set next, its label, words beside it, the stack, two rows.

    `name` is how a set-up of it is called until the person calls it otherwise: the taper and the way, so
    that one taper on two sine bars makes two names; "" while there is no number to set.

    Once a proof says to change the angle, that change leads; `step` then names the step that makes it. `lead`
    is "" where the number cannot be known; `wants` then names the entry to be filled in or mended.
    """
    found = {figure.id: figure for stage in stages for figure in stage.figures}
    change = _change(stages, found)
    lead = change or _lead(stages, SET_IN)
    anew = change is not None and change.id.endswith(".new_stack_height")
    stack = ("proving.new_stack" if anew else "") if change else "setting.stack"
    rows = CHANGE_ROWS if change else ROWS
    shown = [each for each in rows if each[0] in found and _told(found[each[0]])][:MOST_ROWS]
    return {
        "title": _title(stages),
        "name": _name(stages),
        "lead": lead.id if lead else "",
        "label": same(lead.label.split(";")[0].split(", under")[0] if lead else ""),
        "words": _words(change, anew, found) if lead else [],
        "stack": stack if lead and stack in found else "",
        "rows": [_row(found[name], label) for name, label in shown],
        "danger": DANGER if any(stage.steps for stage in stages) else "",
        "step": RIGHT if change else "",
        "wants": "" if lead else _wants(stages),
    }


def _words(change: Figure | None, anew: bool, found: Mapping[str, Figure]) -> list[Both]:
    """Where and which way: of the setting, or of the change that puts it right."""
    if change is None or anew:
        return [_phrase(word, found[name]) for name, word in WORDS if name in found]
    what = change.label.split(" until ")[0]
    return [same(what), *(_phrase(word, found[name]) for name, word in CHANGE_WORDS if name in found)]


def _change(stages: Sequence[Stage], found: Mapping[str, Figure]) -> Figure | None:
    """The number that puts the angle right, where what was seen says to change it by one."""
    decision = found.get("proving.decision")
    if decision is None or decision.value != CHANGE:
        return None
    lead = _lead(stages, PROVED_IN)
    return lead if lead is not None and lead.value else None


def _lead(stages: Sequence[Stage], stage_id: str) -> Figure | None:
    for stage in stages:
        if stage.id == stage_id:
            for figure in stage.figures:
                if figure.lead and isinstance(figure.value, (int, float)):
                    return figure
    return None


def _title(stages: Sequence[Stage]) -> Both:
    line = stages[0].line if stages else ""
    return same(line.split(":")[0])


def _name(stages: Sequence[Stage]) -> str:
    if _lead(stages, SET_IN) is None:
        return ""
    taper = stages[0].line.split(":")[0]
    asked = {field.id: field for stage in stages for field in stage.fields}
    way, bar = asked["setting.way"], asked.get("setting.bar_centres")
    chosen = way.value or way.default
    told = [_in_passing(each.label) for each in way.choices if each.value == chosen]
    if bar:
        length = bar.value or bar.default
        told = [f"sine bar {length}"] if chosen == BAR else [*told, length]
    return ", ".join([taper, *told])


def _in_passing(label: str) -> str:
    """Without what is said in brackets or after a colon, and small: it stands within a name."""
    short = label.split(" (")[0].split(":")[0]
    return f"{short[:1].lower()}{short[1:]}"


def _told(figure: Figure) -> bool:
    return any(figure.shown.values())


def _row(figure: Figure, label: str) -> dict[str, object]:
    text = _whole(figure)
    if figure.id == "proving.decision":
        # Its reason stands with the figure.
        text = {system: said.split(":")[0] for system, said in text.items()}
    return {"figure": figure.id, "label": same(label), "text": text}


def _phrase(word: str, figure: Figure) -> Both:
    return _both({system: word.format(figure.shown[system]) for system in SYSTEMS})


def _whole(figure: Figure) -> Both:
    return _both({s: f"{figure.shown[s]} {figure.plus_minus_shown[s]}".strip() for s in SYSTEMS})


def _both(texts: Mapping[str, str]) -> Both:
    return dict(texts)


def _wants(stages: Sequence[Stage]) -> str:
    """The first entry with a fault, else the first that is neither filled in nor has a default."""
    asked: list[Field] = [field for stage in stages for field in stage.fields]
    for field in asked:
        if field.wrong:
            return field.id
        for row in field.rows:
            for cell in row:
                if cell.wrong:
                    return cell.id
    open_ones = (field.id for field in asked if field.kind == "choice" and not (field.value or field.default))
    return next(open_ones, "")
