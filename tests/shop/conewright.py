"""Working by Conewright: everything goes through its door, as a page would send it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from calc.job import work
from shop.physics import BAR, Shop, Taper

MOST_CUTS = 6
AGAIN = 3


@dataclass
class Job:
    """How one job went: the error of each cut on diameter [mm], what was stated of them, what came of it."""

    errors: list[float] = field(default_factory=list)
    stated: list[tuple[float, bool]] = field(default_factory=list)
    first_chance: float | None = None
    left: float = 0.0
    lost: bool = False
    contradictions: int = 0
    supported: bool = True

    def right_in(self, cuts: int, limit: float) -> bool:
        """Whether it was right after so many cuts, or the last if it took fewer."""
        return abs(self.errors[min(cuts, len(self.errors)) - 1]) <= limit


def request(
    shop: Shop, taper: Taper, rows: list[dict[str, str]], history: list[Any], since: str
) -> dict[str, Any]:
    """The job as a request."""
    return {
        "format": 1,
        "units": "mm",
        "entries": {
            "taper.series": "own",
            "taper.large_diameter": f"{taper.large} mm",
            "taper.length": f"{taper.length} mm",
            "taper.rate": repr(taper.rate),
            "taper.form": "external",
            "setting.way": "bar",
            "setting.bar_centres": f"{BAR} mm",
            "setting.grade": f"{taper.limit:.5f} mm",
            "proving.since": since,
        },
        "drawer": [
            {
                "name": name,
                "shape": shape,
                "size": f"{size} mm",
                "measured": f"{size} mm",
                "give": f"{give} mm",
            }
            for name, shape, size, give in shop.drawer
        ],
        "observations": rows,
        "history": history,
    }


def figures(sheet: dict[str, Any]) -> dict[str, Any]:
    """Every figure's value by id."""
    return {each["id"]: each["value"] for stage in sheet["stages"] for each in stage["figures"]}


def make(shop: Shop, taper: Taper, history: list[Any]) -> Job | None:
    """One job from the first set-up to the last cut; what was proved joins the history."""
    job = Job()
    found = figures(work(request(shop, taper, [], history, "afresh")))
    if "setting.chance" not in found:
        return None  # no stack from this drawer comes near: the person would buy a piece
    slide = shop.set_up([piece["place"] for piece in found["setting.stack"]], taper)
    job.first_chance = found["setting.chance"]
    job.supported = abs(found["setting.stack_error"]) * 2.0 * taper.length / BAR <= 0.25 * taper.limit
    job.left = found["proving.metal"]
    since = "afresh"
    for _ in range(MOST_CUTS):
        error = slide.cut()
        job.errors.append(error)
        sheet: dict[str, Any] = {}
        for _ in range(AGAIN):
            rows = [shop.blue(error, taper), *shop.measured(error, taper)]
            sheet = work(request(shop, taper, rows, history, since))
            if sheet["record"] is not None:
                break
            job.contradictions += 1
        if sheet["record"] is None:
            break
        found = figures(sheet)
        right = abs(error) <= taper.limit
        job.stated.append((found["proving.chance_now"], right))
        history.append(sheet["record"])
        if found["proving.decision"] != "change":
            break
        before = error
        best = next(
            row
            for f in sheet["stages"]
            for g in f["figures"]
            if g["id"] == "proving.decision"
            for row in g["table"]["rows"]
            if row["best"]
        )
        if "Tap" in best["cells"][0]["mm"]:
            sign = -1.0 if found["proving.turn"] == "clockwise" else 1.0
            slide.tap(sign * found["proving.tap"] / 100.0, 100.0)
            since = "tapped"
        else:
            slide = shop.set_up([piece["place"] for piece in found["proving.new_stack"]], taper)
            since = "afresh"
        # Putting it right takes what the slide was turned by off the other end, and a skim to clean up.
        job.left -= abs(slide.cut() - before) + 0.02
        job.lost = job.lost or job.left < 0.0
    return job
