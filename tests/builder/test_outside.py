"""The list of outside rows counts what lies there, and the readme says the same."""

from __future__ import annotations

import csv

from own_builder import ROOT, outside


def test_every_outside_row_is_counted_and_names_its_source() -> None:
    counted = {name: rows for name, rows, _, _ in outside.kinds()}
    for file in (ROOT / "tests" / "published").glob("*.csv"):
        with file.open(encoding="utf-8", newline="") as lines:
            rows = list(csv.DictReader(lines))
        assert counted[file.stem.replace("_", " ")] == len(rows) > 0
        assert all(row["source"].strip() for row in rows), file.name


def test_a_family_without_an_outside_row_says_so() -> None:
    told = outside.report()
    assert any(not beside for _, _, beside, _ in outside.series()), "then this check has nothing to look at"
    for name, rows, beside, _ in outside.series():
        line = next(each for each in told.splitlines() if each.startswith(f"  {name:<22}{rows:>4}"))
        assert line.endswith(f"{beside} from outside" if beside else "none from outside")


def test_the_readme_s_table_is_the_present_one() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    for name, rows, sources, sure in outside.kinds():
        assert f"| {name} | {rows} | {sources} | {outside.sure_words(sure)} |" in readme, name
