"""The job at a glance: what one screen shows, as ids of figures and a few short words.

The page that shows it knows no figure by name; what leads, and what stands beside it, is said here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from calc.sheet import Both, Field, Figure, Stage, same

SET_IN = "setting"
DANGER = "Eyes covered, key out. Spindle stopped and isolated before hands go in."
WORDS: tuple[tuple[str, str], ...] = (
    ("setting.pin", "under "),
    ("setting.swing", "swing "),
    ("setting.towards", "towards "),
    ("setting.sweep_side", "sweep the "),
)
"""Figures that say where and which way, each with the word that makes a phrase of it."""
ROWS: tuple[tuple[str, str], ...] = (
    ("proving.decision", "Proving says"),
    ("proving.inside_grade", "Inside the limit"),
    ("setting.error_on_diameter", "Taper error on Ø"),
    ("setting.chance", "Right at the first cut"),
)
MOST_ROWS = 2
SYSTEMS = ("mm", "inch")


def glance(stages: Sequence[Stage]) -> dict[str, object]:
    """What leads this job: title, the number to set with its label, the words beside it, the stack, two rows.

    `lead` is "" where the number cannot be known; `wants` then names the entry to be filled in or mended.
    """
    found = {figure.id: figure for stage in stages for figure in stage.figures}
    lead = _lead(stages)
    shown = [each for each in ROWS if each[0] in found and _told(found[each[0]])][:MOST_ROWS]
    return {
        "title": _title(stages),
        "lead": lead.id if lead else "",
        "label": same(lead.label.split(";")[0].split(", under")[0] if lead else ""),
        "words": [_phrase(word, found[name]) for name, word in WORDS if lead and name in found],
        "stack": "setting.stack" if lead and "setting.stack" in found else "",
        "rows": [_row(found[name], label) for name, label in shown],
        "danger": DANGER if any(stage.steps for stage in stages) else "",
        "wants": "" if lead else _wants(stages),
    }


def _lead(stages: Sequence[Stage]) -> Figure | None:
    for stage in stages:
        if stage.id == SET_IN:
            for figure in stage.figures:
                if figure.lead and isinstance(figure.value, (int, float)):
                    return figure
    return None


def _title(stages: Sequence[Stage]) -> Both:
    line = stages[0].line if stages else ""
    return same(line.split(":")[0])


def _told(figure: Figure) -> bool:
    return any(figure.shown.values())


def _row(figure: Figure, label: str) -> dict[str, object]:
    return {"figure": figure.id, "label": same(label), "text": _whole(figure)}


def _phrase(word: str, figure: Figure) -> Both:
    return _both({system: f"{word}{figure.shown[system]}" for system in SYSTEMS})


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
