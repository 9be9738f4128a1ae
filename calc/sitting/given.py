"""What of the sheet was handed out already, so that only what differs is handed out next."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from calc.job import as_text
from calc.sheet import Field, Figure, Folded, Stage, as_plain

LISTS = ("fields", "figures", "steps", "cautions")
TEXTS = ("title", "line", "drawing")
ROWS = "drawer"
"""What beside the stages is rows of texts, and long."""


@dataclass(slots=True)
class _StageGiven:
    """A stage as it was handed out: texts by name; items of its lists by id; the order of each list."""

    version: int = 0
    texts: dict[str, str] = field(default_factory=dict)
    items: dict[str, dict[str, tuple[object, str]]] = field(default_factory=dict)
    orders: dict[str, list[str]] = field(default_factory=dict)


class Given:
    """What was handed out so far; every method notes what it returns as handed out."""

    def __init__(self) -> None:
        self._stages: dict[str, _StageGiven] = {}
        self._others: dict[str, tuple[object, str]] = {}

    def stage(self, stage: Stage) -> str:
        """JSON of what differs in this stage, "" where nothing does.

        In a list what was handed out before is named by its id. What is folded still is passed over: the page
        goes on showing what it has.
        """
        before = self._stages.setdefault(stage.id, _StageGiven())
        changed: list[str] = []
        for name in TEXTS:
            part = getattr(stage, name)
            if not callable(part) and part != before.texts.get(name):
                before.texts[name] = part
                changed.append(f'"{name}":{as_text(part)}')
        lists = ((name, _list(before, name, getattr(stage, name))) for name in LISTS)
        changed += [f'"{name}":{text}' for name, text in lists if text]
        if not changed:
            return ""
        before.version += 1
        return f'{{"id":{json.dumps(stage.id)},"version":{before.version},{",".join(changed)}}}'

    def figure(self, stage: str, figure: Figure) -> str:
        """JSON of the stage with this figure in the place of the one of its id; "" where there is none yet,
        or it is as it was.
        """
        before = self._stages.get(stage)
        old = before.items.get("figures", {}) if before else {}
        order = before.orders["figures"] if before else []
        text = as_text(as_plain(figure))
        there = figure.id in old and all(key in old for key in order)
        if before is None or not there or text == old[figure.id][1]:
            return ""
        old[figure.id] = (figure, text)
        said = [text if key == figure.id else json.dumps(key) for key in order]
        before.version += 1
        return f'{{"id":{json.dumps(stage)},"version":{before.version},"figures":[{",".join(said)}]}}'

    def others(self, parts: Mapping[str, object]) -> str:
        """JSON of those parts beside the stages that differ, "" where none does."""
        changed = []
        for name, part in parts.items():
            before, text = self._others.get(name, (None, ""))
            if part is before and part is not None:
                continue
            now = as_text(part)
            self._others[name] = (part, now)
            if now != text:
                said = _rows(part, before, now) if name == ROWS else now
                changed.append(f"{json.dumps(name)}:{said}")
        return f"{{{','.join(changed)}}}" if changed else ""


def _field(now: Field, before: Field) -> str:
    """JSON of a field that differs; a row of it that does not is named by its place."""
    if not now.rows or not before.rows:
        return as_text(as_plain(now))
    rows = [
        place if place < len(before.rows) and row == before.rows[place] else as_plain(row)
        for place, row in enumerate(now.rows)
    ]
    plain = as_plain(replace(now, rows=()))
    return as_text({**plain, "rows": rows} if isinstance(plain, dict) else plain)


def _rows(now: object, before: object, text: str) -> str:
    """JSON of rows; one that is as it was is named by its place."""
    if not isinstance(now, list) or not isinstance(before, list):
        return text
    return as_text(
        [place if place < len(before) and row == before[place] else row for place, row in enumerate(now)]
    )


def _list(before: _StageGiven, name: str, items: Sequence[object]) -> str:
    """JSON of a list, what was handed out before by its id; "" where it is as it was."""
    old = before.items.get(name, {})
    ids = [str(getattr(item, "id", "")) for item in items]
    often = Counter(ids)
    fresh: dict[str, tuple[object, str]] = {}
    said: list[str] = []
    order: list[str] = []
    differs = False
    for key, item in zip(ids, items, strict=True):
        known = old.get(key) if key and often[key] == 1 else None
        if isinstance(item, Folded):
            if known is None:
                continue
            text = known[1]
            item = known[0]
        elif known is not None and (item is known[0] or isinstance(item, Field) and item == known[0]):
            text = known[1]  # a field is texts alone: what is equal reads alike
        elif isinstance(item, Field) and known is not None and isinstance(known[0], Field):
            text = _field(item, known[0])
        else:
            text = as_text(as_plain(item))
        alone = bool(key) and often[key] == 1
        if alone:
            fresh[key] = (item, text)
        again = known is not None and known[1] == text
        said.append(json.dumps(key) if again else text)
        order.append(key if alone else text)
        differs = differs or alone and not again
    differs = differs or order != before.orders.get(name)
    before.items[name], before.orders[name] = fresh, order
    return f"[{','.join(said)}]" if differs else ""
