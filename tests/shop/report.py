"""The simulated shop, many times: cuts until right, right at the first cut, parts lost, calibration; three
policies.

    python -m shop.report SHOPS JOBS        (from tests/; `build.py bench` prints it)
"""

from __future__ import annotations

import random
import sys
from dataclasses import dataclass, field

import numpy as np

from shop import by_hand, conewright
from shop.conewright import Job
from shop.knowing import Knowing
from shop.physics import Shop, Taper

RATES = (0.04995, 0.05205, 0.0502, 0.04988, 0.0625)
LARGE = (12.065, 17.78, 23.825, 31.267)
LENGTHS = (45.0, 55.0, 64.0, 80.0)
LIMIT_OVER_63 = 0.0079
"""AT7 over 63 mm, either way on diameter [mm]."""
KITS = ("", "micrometer", "plate")
KIT_WORDS = {
    "": "blue alone",
    "micrometer": "blue and a micrometer at stops",
    "plate": "blue and a sine bar on a plate",
}


def taper(chance: random.Random, limits: tuple[float, ...] = (LIMIT_OVER_63,)) -> Taper:
    """A shank such as shops make; the limit goes with the length."""
    length = chance.choice(LENGTHS)
    return Taper(chance.choice(LARGE), chance.choice(RATES), length, chance.choice(limits) * length / 63.0)


@dataclass
class Results:
    """Jobs of one policy, each with its number in its shop, its limit and its kit."""

    jobs: list[tuple[str, int, Job, float]] = field(default_factory=list)

    def first(self, number: int | None = None, kit: str | None = None) -> float:
        """Share right at the first cut, where the drawer can support it."""
        picked = [
            job.right_in(1, limit)
            for which, at, job, limit in self.jobs
            if job.supported and (number is None or at == number) and (kit is None or which == kit)
        ]
        return float(np.mean(picked)) if picked else float("nan")

    def after(self, number: int, kit: str | None = None) -> float:
        """Share right at the first cut from this job in a row on."""
        picked = [
            job.right_in(1, limit)
            for which, at, job, limit in self.jobs
            if job.supported and at >= number and (kit is None or which == kit)
        ]
        return float(np.mean(picked)) if picked else float("nan")

    def in_two(self, kit: str | None = None) -> float:
        """Share right after two cuts at most."""
        return float(
            np.mean([job.right_in(2, limit) for which, _, job, limit in self.jobs if kit in (None, which)])
        )

    def in_the_end(self) -> float:
        """Share right when it was called done."""
        return float(np.mean([job.right_in(99, limit) for _, _, job, limit in self.jobs]))

    def cuts(self) -> float:
        """Cuts until it was called done."""
        return float(np.mean([len(job.errors) for _, _, job, _ in self.jobs]))

    def lost(self) -> float:
        """Share of parts that ran out of metal."""
        return float(np.mean([job.lost for _, _, job, _ in self.jobs]))

    def stated(self) -> list[tuple[float, bool]]:
        """Every chance stated of a proved cut, and whether it was right."""
        return [each for _, _, job, _ in self.jobs for each in job.stated]


def run(
    shops: int, jobs: int, limits: tuple[float, ...] = (LIMIT_OVER_63,), seed: int = 0
) -> dict[str, Results]:
    """The same shops and tapers by each policy."""
    found = {"by hand": Results(), "Conewright": Results(), "knowing the model": Results()}
    for number in range(shops):
        kit = KITS[number % len(KITS)]
        chance = random.Random(seed + number)
        wanted = [taper(chance, limits) for _ in range(jobs)]
        hand, ours, best = (Shop.drawn(seed + number, kit) for _ in range(3))
        knowing, history = Knowing(best, seed + number), []
        for at, each in enumerate(wanted):
            job = conewright.make(ours, each, history)
            if job is None:
                continue
            found["Conewright"].jobs.append((kit, at, job, each.limit))
            by = by_hand.make(hand, each)
            other = knowing.make(each)
            other.supported = by.supported = job.supported
            found["by hand"].jobs.append((kit, at, by, each.limit))
            found["knowing the model"].jobs.append((kit, at, other, each.limit))
    return found


def calibration(stated: list[tuple[float, bool]]) -> list[tuple[float, float, float, int]]:
    """By tenths about 10, 30, 50, 70 and 90 %: the middle, the mean stated, the share right, how many."""
    rows = []
    for middle in (0.1, 0.3, 0.5, 0.7, 0.9):
        picked = [(chance, right) for chance, right in stated if abs(chance - middle) <= 0.1]
        if picked:
            chances, rights = np.array(picked).T
            rows.append((middle, float(chances.mean()), float(rights.mean()), len(picked)))
    return rows


def report(shops: int, jobs: int) -> None:
    """Print it."""
    found = run(shops, jobs)
    print(f"\nA simulated shop, {shops} shops of {jobs} jobs each (limit AT7, either way)")
    print(f"  {'':34}{'by hand':>12}{'Conewright':>12}{'the best':>12}")
    rows = [(f"right at the first cut, job {at + 1}", lambda r, at=at: r.first(at)) for at in range(jobs)]
    rows.append(("right at the first cut, after job 4", lambda r: r.after(4)))
    rows.append(("right in two cuts", lambda r: r.in_two()))
    rows.append(("right when called done", lambda r: r.in_the_end()))
    for name, measure in rows:
        print(f"  {name:34}" + "".join(f"{100 * measure(each):11.1f}%" for each in found.values()))
    print(f"  {'cuts until called done':34}" + "".join(f"{each.cuts():12.2f}" for each in found.values()))
    lost = [f"{100 * found[name].lost():11.1f}%" for name in ("by hand", "Conewright")]
    print(f"  {'parts lost':34}" + "".join(lost))
    for kit, words in KIT_WORDS.items():
        shares = "".join(f"{100 * each.after(1, kit):11.1f}%" for each in found.values())
        print(f"  {'first cut, after job 1: ' + words:54}{shares}")
    varied = run(shops, min(jobs, 4), (0.002, 0.004, 0.006, 0.008, 0.012), 1000)["Conewright"]
    print("  chances stated of proved cuts, against how many were right")
    for middle, stated, right, count in calibration(varied.stated()):
        print(
            f"    about {100 * middle:3.0f} %: stated {100 * stated:5.1f} %, right {100 * right:5.1f} % of"
            f" {count}"
        )


if __name__ == "__main__":
    report(int(sys.argv[1]) if len(sys.argv) > 1 else 60, int(sys.argv[2]) if len(sys.argv) > 2 else 6)
