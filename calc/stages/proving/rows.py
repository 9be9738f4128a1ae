"""The observations as the ways of proving take them: what each says, and what is still missing in one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from calc.gauging import WAYS
from calc.gauging.way import Part, Seen, Way
from calc.sheet import Fault, Field
from calc.stages.common.observations import ID as KEY
from calc.stages.common.observations import Observation, Observations

__all__ = ["BY_ID", "KEY", "RowsRead", "read_rows"]

BY_ID: Mapping[str, Way] = {way.ID: way for way in WAYS}


@dataclass(frozen=True, slots=True)
class RowsRead:
    """The field that shows the observations, what the whole ones say, and how many are not whole.

    ways: by which ways it is proved, those of rows that are not whole yet too."""

    field: Field
    seen: Sequence[Seen] = ()
    unfinished: int = 0
    ways: Sequence[str] = ()


def read_rows(sent: Observations, part: Part | None) -> RowsRead:
    """What the observations say of this part; None while it is not known."""
    seen: list[Seen] = []
    unfinished = 0
    fields: list[Sequence[Field]] = []
    for each in sent.rows:
        row, shown = each.row, each.fields
        if row is None or each.way is None:
            unfinished += 1
        elif part is not None:
            key, sentence = each.way.missing(row, part)
            if not key:
                seen.append(each.way.seen(row, part))
            else:
                unfinished += 1
                shown = _asked(each, key, sentence)
        fields.append(_telling(each.way, shown))
    ways = list(dict.fromkeys(each.way.ID for each in sent.rows if each.way is not None))
    return RowsRead(replace(sent.field(), rows=fields), seen, unfinished, ways)


def _telling(way: Way | None, fields: Sequence[Field]) -> Sequence[Field]:
    """The row's fields, the way's own with what it can and cannot tell."""
    if way is None or not fields:
        return fields
    return [replace(fields[0], help=f"{way.TELLS} {way.CANNOT}"), *fields[1:]]


def _asked(each: Observation, key: str, sentence: str) -> Sequence[Field]:
    """The row's fields with what is missing said beside its cell, once something else is filled in."""
    if not any(entry.typed for name, entry in each.entries.items() if name != "way"):
        return each.fields
    fault = Fault(sentence, way_out="Fill it in, or take the row out.")
    return [
        replace(field, wrong=fault) if field.id.rpartition(".")[2] == key and field.wrong is None else field
        for field in each.fields
    ]
