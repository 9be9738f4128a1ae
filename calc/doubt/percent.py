"""Chances as a person reads them."""

from __future__ import annotations


def percent(chance: float) -> str:
    """A chance from 0 to 1 in whole per cent; "under 1 %" and "over 99 %" rather than never and always.

    The assumptions behind any chance told here support no more.
    """
    if chance < 0.01:
        return "under 1 %"
    return "over 99 %" if chance > 0.99 else f"{100.0 * chance:.0f} %"
