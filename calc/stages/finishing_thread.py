"""The drawbar's thread: tapping drill, how deep, and the mouth that carries the centre."""

from __future__ import annotations

from calc.machining.threads import BEYOND_THREAD, drawbar
from calc.quantities import shown_length
from calc.sheet import Figure, Working, same
from calc.stages.blank import End
from calc.stages.form import Form
from calc.stages.said import Said
from calc.stages.shop import PRACTICE, from_memory, line, long


def ask_thread(form: Form, end: End) -> str | None:
    """The thread by name: asked only where the table tells two; None where it tells none."""
    threads = end.shank.threads if end.shank else {}
    names = [threads[key].text for key in ("drawbar_thread", "drawbar_thread_inch") if key in threads]
    if len(names) < 2:
        return names[0] if names else None
    default = names[1] if form.system == "inch" else names[0]
    return form.choice(
        "finishing.thread", "Thread for the drawbar", [(each, each) for each in names], default=default
    )


def thread_said(name: str, end: End, whose: str, system: str) -> Said:
    """Thread, tapping drill and depths."""
    data = end.shank.data if end.shank else {}
    threads = end.shank.threads.values() if end.shank else ()
    origin = next((each.found.words() for each in threads if each.text == name), "")
    said = Said(line=f"drawbar thread {name}")
    said.figures.append(
        Figure("finishing.thread_name", "Thread", name, shown=same(name),
               working=[Working("as the table prints it", same(name))], source=origin)
    )  # fmt: skip
    thread = drawbar(name)
    if thread is None:
        return said
    drill = {**shown_length(thread.drill.value)}
    own = "inch" if thread.drill.unit == "in" else "mm"
    drill[own] = f"{thread.drill.text} {thread.drill.unit}"
    said.line += f", tapping drill {drill[system]}"
    said.figures.append(
        Figure(
            "finishing.tapping_drill",
            "Tapping drill",
            thread.drill.value,
            "mm",
            shown=drill,
            working=[
                Working(
                    "near the thread's diameter less its pitch",
                    line(
                        "{a} − {b} = {c}",
                        a=shown_length(thread.major_diameter),
                        b=shown_length(thread.pitch),
                        c=shown_length(thread.major_diameter - thread.pitch),
                    ),
                    thread.drill.note,
                )
            ],
            source=thread.drill.origin(),
        )
    )  # fmt: skip
    depth = data.get("drawbar_thread_depth")
    deep = least = ""
    if depth is not None:
        drilled = thread.drill_depth(depth.value)
        said.figures.append(
            Figure(
                "finishing.thread_depth",
                "Full thread, at least",
                depth.value,
                "mm",
                shown=long(depth.value),
                working=[
                    Working(
                        f"drill {BEYOND_THREAD:g} pitches deeper, for the tap's lead",
                        line(
                            "{a} + 4 × {b} = {c}",
                            a=long(depth.value),
                            b=shown_length(thread.pitch),
                            c=long(drilled),
                        ),
                        f"{PRACTICE}: how much deeper.",
                    )
                ],
                source=depth.origin(),
            )
        )
        said.cautions = from_memory([depth], whose)
        deep = f" {long(drilled)[system]} deep"
        least = f" for {long(depth.value)[system]} at least"
    mouth = thread.major_diameter + thread.pitch / 2.0
    said.steps = [
        f"Drill {drill[system]}{deep} from the tailstock, clearing chips often.",
        f"Tap {name}{least} by hand, the spindle stopped and locked or in its lowest gear, the tap on"
        " the tailstock centre so that it starts straight.",
        f"Open the mouth at 60° to {rough_mouth(mouth)[system]}: the centre runs on it, clear of the thread.",
    ]
    return said


def rough_mouth(mm: float) -> dict[str, str]:
    """The mouth of the centre hole [mm] to tenths of a mm."""
    return shown_length(mm, 0.5)
