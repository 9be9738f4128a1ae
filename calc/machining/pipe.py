"""The cone that is turned or bored for a taper pipe thread: over its crests, not at its pitch line.

Tables give an NPT thread's pitch diameter and an R thread's diameter over the crests. Outside, the tool turns
the crests: the pitch diameter and one height of thread. Inside it bores to the crests of the inside thread:
the pitch diameter less one height, or the outside crests less two. At the pitch diameter the part is scrap.

Outside, this cone rises from the small end at the taper's rate until it meets the pipe's outside; from there
on the thread runs out on the pipe itself.
"""

from __future__ import annotations

from calc.cone import Cone
from calc.machining.blank import PLAIN, Finished
from calc.tables.pipes import PipeEnd


def turned(cone: Cone, pipe: PipeEnd, internal: bool) -> Cone:
    """The cone at the crests, to the gauge plane; `cone` is the table's. No diameters give none."""
    height = pipe.depth * pipe.pitch
    above = height if pipe.pitch_line else 0.0
    if internal:
        above -= 2.0 * height
    large, small = cone.large_diameter, cone.small_diameter
    return Cone(
        cone.rate,
        None if large is None else large + above,
        None if small is None else small + above,
        cone.length,
    )


def pipe_finished(cone: Cone, pipe: PipeEnd) -> Finished | None:
    """The finished end of a pipe with an outside thread; `cone` is the table's. None without diameters."""
    crests = turned(cone, pipe, internal=False)
    large, small, length = crests.large_diameter, crests.small_diameter, crests.length
    outside, thread = pipe.outside.value, pipe.thread_length.value
    if large is None or small is None or length is None or not small < outside:
        return None
    reach = min((outside - small) / cone.rate, thread)
    return Finished(
        PLAIN,
        thread,
        outside,
        length,
        large,
        0.0,
        small,
        None,
        0.0,
        [pipe.outside, pipe.thread_length],
        0.0,
        reach,
    )
