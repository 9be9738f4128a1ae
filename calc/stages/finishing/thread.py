"""The drawbar's thread: tapping drill, how deep, and the mouth that carries the centre."""

from __future__ import annotations

from calc.doubt.asks import Ask
from calc.machining.threads import BEYOND_THREAD, drawbar
from calc.quantities import shown_length
from calc.sheet import Both, Figure, Step, Working, same
from calc.stages.blank.facts import End
from calc.stages.common.form import Form
from calc.stages.common.sheet_part import SheetPart
from calc.stages.common.shop import PRACTICE, from_memory, line, long, rough


def ask_thread(form: Form, end: End) -> str | None:
    """The thread by name: asked only where the table tells two; None where it tells none."""
    threads = end.shank.threads if end.shank else {}
    names = [threads[key].text for key in ("drawbar_thread", "drawbar_thread_inch") if key in threads]
    if len(names) < 2:
        return names[0] if names else None
    return form.pick(
        Ask(
            "finishing.thread",
            "Drawbar (draw-in bolt) thread",
            "choice",
            {"mm": names[0], "inch": names[1]},
            choices=[(each, each) for each in names],
        )
    )


def thread_part(name: str, end: End, whose: str, system: str) -> SheetPart:
    """Thread, tapping drill and depths."""
    data = end.shank.data if end.shank else {}
    threads = end.shank.threads.values() if end.shank else ()
    origin = next((each.found.words() for each in threads if each.text == name), "")
    part = SheetPart(line=f"drawbar thread {name}")
    part.figures.append(
        Figure("finishing.thread_name", "Thread", name, shown=same(name),
               working=[Working("as printed in the table", same(name))], source=origin)
    )  # fmt: skip
    thread = drawbar(name)
    if thread is None:
        return part
    drill = {**rough(thread.drill.value)}
    own = "inch" if thread.drill.unit == "in" else "mm"
    drill[own] = f"{thread.drill.text} {thread.drill.unit}"
    part.line += f", tapping drill {drill[system]}"
    part.figures.append(
        Figure(
            "finishing.tapping_drill",
            "Tapping drill",
            thread.drill.value,
            "mm",
            shown=drill,
            working=[
                Working(
                    "near the major diameter minus the pitch",
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
    deep = least = same("")
    if depth is not None:
        drilled = thread.drill_depth(depth.value)
        part.figures.append(
            Figure(
                "finishing.thread_depth",
                "Full thread depth, min.",
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
        part.cautions = from_memory([depth], whose)
        deep = line(" {a} deep", a=long(drilled))
        least = line(" for {a} at least", a=long(depth.value))
    mouth = thread.major_diameter + thread.pitch / 2.0
    drilling = line("Drill {a}{b} from the tailstock; clear the swarf (chips) often.", a=drill, b=deep)
    tapping = line(
        f"Tap {name}{{a}} by hand, the spindle isolated and held by its lowest gear, the tap on the"
        " tailstock centre so that it starts straight.",
        a=least,
    )
    opening = line(
        "Countersink the mouth 60° to {a}: the centre runs on it, clear of the thread.", a=rough_mouth(mouth)
    )
    part.steps = [
        Step("finishing.tap_drill", "ends", drilling, ("swarf",), shows=("finishing.tapping_drill",)),
        Step(
            "finishing.tap",
            "ends",
            tapping,
            ("stopped",),
            shows=("finishing.thread_name", "finishing.thread_depth"),
        ),
        Step("finishing.mouth", "ends", opening),
    ]
    return part


def rough_mouth(mm: float) -> Both:
    """The mouth of the centre hole [mm] to tenths of a mm."""
    return shown_length(mm, 0.5)
