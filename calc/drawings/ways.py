"""The picture of each way of setting, from what was entered for it and what it answered."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from calc.doubt.task import Task
from calc.drawings.attachment import attachment_picture
from calc.drawings.collars import collars_picture
from calc.drawings.dials import dial_on_bar, dial_on_master, dial_on_slide
from calc.drawings.plate import plate_picture
from calc.drawings.scale import scale_picture
from calc.drawings.set_over import set_over_picture
from calc.quantities import shown_angle, shown_length
from calc.setting.attachment import scale_reads
from calc.setting.common import from_above, number_of
from calc.setting.master import sweep_side
from calc.setting.way import Answer


def way_picture(way: str, task: Task, answer: Answer) -> str:
    """SVG text for the way with this id; "" for one that has no picture here."""
    draw = _DRAW.get(way)
    return draw(task, answer) if draw else ""


def _length(task: Task, answer: Answer, name: str) -> str:
    return shown_length(number_of(answer, name))[task.system]


def _one_dial(task: Task, answer: Answer) -> str:
    travel = f"top slide {_length(task, answer, 'setting.travel_whole')}"
    line = f"{travel}: indicator {_length(task, answer, 'setting.dial_whole')}"
    return dial_on_bar(from_above(task), [line], task.choices["setting.plunger"])


def _two_dials(task: Task, answer: Answer) -> str:
    along = _length(task, answer, "setting.travel_whole")
    line = f"along {along}, across {_length(task, answer, 'setting.cross_whole')}"
    how = task.choices["setting.travel_along"]
    if how == "carriage":
        return dial_on_slide(from_above(task), [line], task.form)
    return dial_on_bar(from_above(task), [line], "axis", how)


def _master(task: Task, answer: Answer) -> str:
    told = number_of(answer, "setting.dial_whole")
    line = f"reading changes by {shown_length(abs(told))[task.system]}" if told else "reading stays the same"
    return dial_on_master(from_above(task), [line], task.choices["setting.master_lies"], sweep_side(task))


def _set_over(task: Task, answer: Answer) -> str:
    return set_over_picture(from_above(task), _length(task, answer, "setting.set_over_whole"), [])


def _attachment(task: Task, answer: Answer) -> str:
    number = number_of(answer, "setting.attachment_whole")
    said = scale_reads(number, task.choices["setting.attachment_scale"] == "per_foot")[task.system]
    return attachment_picture(from_above(task), [f"scale reads {said}"], task.form)


def _graduations(task: Task, answer: Answer) -> str:
    reads = shown_angle(number_of(answer, "setting.degrees_whole"))[task.system]
    return scale_picture(from_above(task), task.choices["setting.zero"], reads, [])


def _collars(task: Task, answer: Answer) -> str:
    difference = _length(task, answer, "setting.collar_difference")
    distance = _length(task, answer, "setting.collar_distance")
    return collars_picture(from_above(task), distance, [f"diameters differ by {difference}"], task.form)


def _plate(task: Task, answer: Answer) -> str:
    return plate_picture(
        _length(task, answer, "setting.stack_height"),
        shown_angle(number_of(answer, "setting.plate_set"))[task.system],
        task.choices["setting.plate_angle"] == "included",
        task.choices["setting.plate_from"] == "upright",
    )


_DRAW: Mapping[str, Callable[[Task, Answer], str]] = {
    "one_dial": _one_dial,
    "two_dials": _two_dials,
    "master": _master,
    "set_over": _set_over,
    "attachment": _attachment,
    "graduations": _graduations,
    "collars": _collars,
    "plate": _plate,
}
