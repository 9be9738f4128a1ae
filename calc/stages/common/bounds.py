"""The ends of a range as a person may type them: rounded inwards, so that what is said is accepted."""

from __future__ import annotations

from collections.abc import Callable

from calc.quantities import Reading, Unreadable

_FINEST, _COARSEST = -9, 2
"""Powers of ten, from less to more than any step of the digits shown."""


def said_bound(bound: float, way: int, show: Callable[[float], str], read: Callable[[str], Reading]) -> str:
    """The bound in the shortest steps inwards that reads back as no less than it (`way` 1) or no more (-1).

    bound: [mm, rad or plain]. show and read: to and from the text typed; of a text with a second form in
    brackets the first is read back. Where no step helps the bound is said as it is.
    """
    for step in (0.0, *(10.0**power for power in range(_FINEST, _COARSEST))):
        text = show(bound + way * step)
        try:
            reads = read(text.partition(" (")[0]).value
        except Unreadable:
            continue
        if way * (reads - bound) >= 0.0:
            return text
    return show(bound)
