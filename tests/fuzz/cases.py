"""Requests by which something was found once: kept, so that it stays mended."""

from __future__ import annotations

CASES: list[dict[str, object]] = [
    {"format": 10**5000},
    {"units": 10**5000},
    {"entries": {"taper.included_angle": "0", "setting.packing": "200 mm"}},
    {"drawer": [{"name": "block", "shape": "leaf", "size": "0.4995 in", "give": "±"}]},
]
