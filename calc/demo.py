"""The demonstration job: every figure in it is invented.

A stub arbor with a Morse 2 shank for a slitting saw, turned from 25 mm bar of
medium-carbon steel, set by a 100 mm bar and a drawer of measured odds and ends.
"""

from __future__ import annotations

NAME = "Stub arbor, Morse 2 shank (demonstration, every figure invented)"

_DRAWER = """
0.6 drill | round | 0.6 mm | 0.594 mm
0.8 drill | round | 0.8 mm | 0.793 mm
1.0 drill | round | 1 mm | 0.992 mm
1.2 drill | round | 1.2 mm | 1.193 mm
1.5 drill | round | 1.5 mm | 1.491 mm
1.6 drill | round | 1.6 mm | 1.592 mm
1.8 drill | round | 1.8 mm | 1.793 mm
2.0 drill | round | 2 mm | 1.989 mm
2.1 drill | round | 2.1 mm | 2.092 mm
2.2 drill | round | 2.2 mm | 2.194 mm
2.3 drill | round | 2.3 mm | 2.288 mm
2.4 drill | round | 2.4 mm | 2.391 mm
2.5 drill | round | 2.5 mm | 2.489 mm
#40 drill | round | #40 drill | 0.0976 in
3/32 drill | round | 3/32 in | 0.0934 in
3.0 drill | round | 3 mm | 2.991 mm
3.3 drill | round | 3.3 mm | 3.290 mm
4.2 drill | round | 4.2 mm | 4.187 mm
2 mm dowel pin | round | 2 mm | 2.003 mm
3 mm dowel pin | round | 3 mm | 3.004 mm
leaf 0.05 | leaf | 0.05 mm | 0.051 mm
leaf 0.10 | leaf | 0.1 mm | 0.100 mm
leaf 0.15 | leaf | 0.15 mm | 0.152 mm
leaf 0.20 | leaf | 0.2 mm | 0.201 mm
leaf 0.30 | leaf | 0.3 mm | 0.302 mm
leaf 0.40 | leaf | 0.4 mm | 0.399 mm
leaf 0.50 | leaf | 0.5 mm | 0.502 mm
1-1/2 thou leaf | leaf | 1.5 thou | 1.5 thou
3 thou leaf | leaf | 3 thou | 3.1 thou
6 thou leaf | leaf | 6 thou | 6 thou
10 thou leaf | leaf | 10 thou | 9.9 thou
1.00 block | flat | 1 mm | 1.0000 mm
1.50 block | flat | 1.5 mm | 1.5002 mm
2.00 block | flat | 2 mm | 2.0001 mm
"""


def demo_request() -> dict[str, object]:
    """The demonstration as a request, with its name and the mark that it is invented."""
    drawer = []
    for line in _DRAWER.strip().splitlines():
        name, shape, size, measured = (part.strip() for part in line.split("|"))
        drawer.append(
            {
                "name": name,
                "shape": shape,
                "size": size,
                "measured": measured,
                "give": "0.001 mm" if shape == "flat" else "0.0025 mm",
                "count": "1",
            }
        )
    return {
        "format": 1,
        "name": NAME,
        "invented": True,
        "units": "mm",
        "entries": {
            "taper.series": "Morse",
            "taper.size": "2",
            "taper.form": "external",
            "taper.small_end": "tailstock",
            "setting.way": "bar",
            "setting.bar_centres": "100 mm",
            "setting.bar_side": "operator",
            "setting.cut_side": "operator",
            "blank.end": "tang",
            "blank.stock": "25 mm",
            "blank.head_length": "30 mm",
            "cutting.material": "medium carbon steel",
            "cutting.tool": "HSS",
            "cutting.speeds": "45, 75, 120, 190, 300, 480, 760, 1200",
            "cutting.slide_travel": "85 mm",
            "finishing.spigot": "16 mm",
            "finishing.fit": "H7/h6",
        },
        "drawer": drawer,
        "observations": [
            {
                "way": "contact",
                "end": "large",
                "share": "three quarters",
                "film": "thin",
                "note": "roughed, proved cold",
            },
            {"way": "stand_off", "stand_off": "4 mm", "give": "0.2 mm"},
        ],
        "history": [],
    }
