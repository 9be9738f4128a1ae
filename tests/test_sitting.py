"""A sitting: put together, its parts are the sheet of the last request, whatever was asked before."""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from calc.demo import demo_request
from calc.job import work, work_text
from calc.sitting import Sitting
from generated_requests import BAD, generated, known_fields

CORPUS = sorted((Path(__file__).parent / "corpus").iterdir())
LISTS = ("fields", "figures", "steps", "cautions")
FIELDS = known_fields(work)
STAGES = [stage["id"] for stage in work({})["stages"]]


def with_rows(rows: list[Any], before: Sequence[Any]) -> list[Any]:
    return [before[row] if isinstance(row, int) else row for row in rows]


class Page:
    """What the page does with the parts, in a few lines."""

    def __init__(self) -> None:
        self.stages: dict[str, Any] = {}
        self.others: dict[str, Any] = {}
        self.sheet: dict[str, Any] | None = None
        self.part = 0
        self.whole = False

    def take(self, text: str) -> None:
        part = json.loads(text)
        self.whole, self.sheet = part["whole"], part.get("sheet")
        if self.sheet is not None:
            return
        assert part["part"] in (1, self.part + 1), "a part is missing"
        if part["part"] == 1:
            self.stages, self.others = {}, {}
        self.part = part["part"]
        for patch in part.get("stages", ()):
            old = self.stages.get(patch["id"], {"drawing": "", "version": 0})
            assert patch["version"] == old["version"] + 1
            new = {**old, **patch}
            for name in LISTS:
                known = {item.get("id"): item for item in old.get(name, ())}
                new[name] = [known[item] if isinstance(item, str) else item for item in new[name]]
            for field in new["fields"]:
                before = next((each for each in old.get("fields", ()) if each["id"] == field["id"]), {})
                field["rows"] = with_rows(field["rows"], before.get("rows", ()))
            self.stages[patch["id"]] = new
        others = part.get("others", {})
        if "drawer" in others:
            others["drawer"] = with_rows(others["drawer"], self.others.get("drawer", ()))
        self.others |= others

    def shown(self) -> dict[str, Any]:
        """The sheet as it is on the page."""
        if self.sheet is not None:
            return self.sheet
        others = {key: part for key, part in self.others.items() if key not in ("order", "route")}
        stages = [
            {key: part for key, part in self.stages[name].items() if key != "version"}
            for name in self.others["order"]
        ]
        route = [
            {**self.stages[stage]["steps"][place], "stage": stage} for stage, place in self.others["route"]
        ]
        return {**others, "stages": stages, "route": route}


def exact(sheet: object) -> str:
    """A sheet as text, the same for the same digits: 1, 1.0 and true are three things."""
    return json.dumps(sheet, sort_keys=True)


def answered(sitting: Sitting, page: Page, text: str, look: str = "", parts: int | None = None) -> None:
    """Ask, and take all parts, or only so many before something newer comes."""
    part: str | None = sitting.ask(text, look)
    taken = 0
    while part is not None:
        if part:
            page.take(part)
        taken += 1
        if parts is not None and taken > parts:
            return
        part = sitting.more()


def plain(text: str) -> bool:
    """Whether the text can stand in JSON that crosses to the browser and back."""
    return "\ud800" not in text


@cache
def whole(text: str) -> str:
    """The sheet that the one door answers, as text of its own order."""
    return exact(json.loads(work_text(text)))


@pytest.mark.parametrize("path", CORPUS, ids=lambda path: path.stem)
def test_after_any_other_request_the_sheet_is_that_of_the_last(path: Path) -> None:
    sitting, page = Sitting(), Page()
    text = path.read_text("utf-8", errors="surrogatepass")
    for each in (json.dumps(demo_request()), text, json.dumps(demo_request()), text, text):
        answered(sitting, page, each)
        assert page.whole
        assert exact(page.shown()) == whole(each)


def test_generated_requests_one_after_another() -> None:
    sitting, page = Sitting(), Page()
    for text in generated(work, 120, 7):
        answered(sitting, page, text)
        assert exact(page.shown()) == exact(json.loads(work_text(text)))


LENGTHS = ("100 mm", "4in", "4.2mm + 6thou", "25", "0", "-0", "0.0", "200mm", "0.7 in", "#7 drill")
OTHERS = ("AT5", "AT7", "0.01", "1:20", "30 deg")
TEXTS = st.sampled_from([*LENGTHS, *OTHERS, *(each for each in BAD if plain(each))])
PIECES = st.fixed_dictionaries(
    {
        "name": st.sampled_from(["4.2 drill", "block", ""]),
        "shape": st.sampled_from(["round", "flat", "leaf"]),
        "size": st.sampled_from(["4.2mm", "2", "1/8in", "0.05mm", "x"]),
        "count": st.sampled_from([1, 2, "1", True, 1.0]),
    }
)
CORPUS_FOLDER = CORPUS[0].parent
RECORD = json.loads((CORPUS_FOLDER / "history_partly_damaged.json").read_text("utf-8"))["history"]
SEEN = json.loads((CORPUS_FOLDER / "observations_of_every_way.json").read_text("utf-8"))["observations"]


KINDS = ["entry"] * 8 + ["units", "drawer", "observations", "history", "add", "anew"]


@st.composite
def edits(draw: st.DrawFn) -> dict[str, Any]:
    """One thing changed in a request: how, and with what."""
    kind = draw(st.sampled_from(KINDS))
    if kind == "entry":
        asked = FIELDS[draw(st.sampled_from(sorted(FIELDS)))]
        choices = [each["value"] for each in asked["choices"]]
        text = draw(st.sampled_from(choices)) if choices and draw(st.integers(0, 9)) else draw(TEXTS)
        return {"kind": kind, "name": asked["id"], "text": text}
    if kind == "drawer":
        return {"kind": kind, "piece": draw(PIECES), "place": draw(st.integers(0, 5))}
    if kind == "observations":
        return {"kind": kind, "rows": draw(st.lists(st.sampled_from(SEEN), max_size=3))}
    if kind == "history":
        return {"kind": kind, "rows": draw(st.lists(st.sampled_from(RECORD), max_size=3))}
    return {"kind": kind, "set": draw(st.sampled_from([[], ["drills-mm-19"], ["no such"]]))}


def edited(request: dict[str, Any], edit: dict[str, Any]) -> dict[str, Any]:
    kind = edit["kind"]
    if kind == "entry":
        return {**request, "entries": {**request["entries"], edit["name"]: edit["text"]}}
    if kind == "units":
        return {**request, "units": "inch" if request["units"] == "mm" else "mm"}
    if kind == "drawer":
        drawer = list(request["drawer"])
        drawer[edit["place"] : edit["place"] + 1] = [edit["piece"]]
        return {**request, "drawer": drawer}
    if kind in ("observations", "history"):
        return {**request, kind: edit["rows"]}
    return {**request, "add": edit["set"]} if kind == "add" else demo_request()


def as_sent(request: dict[str, Any]) -> str:
    """The request as the page writes it: without blanks, the history last."""
    others = {key: part for key, part in request.items() if key != "history"}
    history = {"history": request["history"]} if "history" in request else {}
    return json.dumps({**others, **history}, separators=(",", ":"))


CLEAN_UPS = ("4.2mm + 6thou", "100 mm")
LOOKS = st.sampled_from(["", *STAGES, "setting blank", "no_such_stage"])


@settings(max_examples=2000 if os.environ.get("CONEWRIGHT_DEEP") else 30)
@given(st.lists(st.tuples(edits(), LOOKS, st.none() | st.integers(0, 12)), min_size=1, max_size=8), LOOKS)
# A way reckoned beside was asked about the blank; after the next entry there was no blank to ask about.
@example([({"kind": "entry", "name": "blank.clean_up", "text": each}, "", None) for each in CLEAN_UPS], "")
def test_over_any_edits_the_parts_come_to_the_sheet_of_the_last_request(
    steps: list[tuple[dict[str, Any], str, int | None]], look: str
) -> None:
    """Digit for digit, whatever was looked at and whatever was overtaken on the way."""
    sitting, page = Sitting(), Page()
    request: dict[str, Any] = demo_request()
    for edit, looked_at, parts in steps:
        request = edited(request, edit)
        answered(sitting, page, as_sent(request), looked_at, parts)
        if parts is None:
            assert exact(page.shown()) == exact(work(request))
    answered(sitting, page, as_sent(request), look)
    assert exact(page.shown()) == exact(work(request))


def test_the_lead_comes_first_and_what_is_looked_at_is_complete_next_but_for_what_is_late() -> None:
    sitting, page = Sitting(), Page()
    request: dict[str, Any] = demo_request()
    answered(sitting, page, json.dumps(request))
    request = {**request, "entries": {**request["entries"], "setting.bar_centres": "100.4 mm"}}
    want = next(each for each in work(request)["stages"] if each["id"] == "setting")
    before = {each["id"]: each for each in page.stages["setting"]["figures"]}

    part = sitting.ask(json.dumps(request), "setting")
    page.take(part)
    have = page.stages["setting"]["figures"]
    changed = [each for each in have if each != before[each["id"]]]
    assert [each["id"] for each in changed] == ["setting.stack_height"]
    assert changed == [each for each in want["figures"] if each["id"] == "setting.stack_height"]
    assert set(json.loads(part)["stale"]) == set(STAGES)
    assert len(part) < 3000

    part = sitting.more() or ""
    page.take(part)
    late = set(json.loads(part)["late"])
    stage = page.stages["setting"]
    assert stage["line"] == want["line"] and stage["fields"] == want["fields"]
    lead = [each for each in want["figures"] if each["id"] not in late]
    assert any(each["lead"] for each in lead)
    assert [each for each in stage["figures"] if each["id"] not in late] == lead


def test_a_lead_that_stays_or_is_another_figure_takes_no_part_of_its_own() -> None:
    sitting, page = Sitting(), Page()
    request: dict[str, Any] = demo_request()
    answered(sitting, page, json.dumps(request))
    for name, text in (
        ("blank.stock", "26 mm"),
        ("setting.way", "two_dials"),
        ("setting.travel", "none at all"),
    ):
        request = {**request, "entries": {**request["entries"], name: text}}
        part = json.loads(sitting.ask(json.dumps(request), "setting"))
        assert "setting" not in part["stale"]
        while sitting.more() is not None:
            pass


def test_what_did_not_change_is_not_handed_out_again() -> None:
    sitting, page = Sitting(), Page()
    request: dict[str, Any] = demo_request()
    text = json.dumps(request)
    answered(sitting, page, text)
    again = json.loads(sitting.ask(text))
    assert again["stages"] == [] and again["others"] == {}
    while sitting.more() is not None:
        pass
    request = {**request, "entries": {**request["entries"], "finishing.tang_now": "13.1 mm"}}
    part = sitting.ask(json.dumps(request))
    assert {each["id"] for each in json.loads(part)["stages"]} == {"finishing"}


def test_of_the_drawer_only_the_row_that_differs_is_handed_out() -> None:
    sitting, page = Sitting(), Page()
    request: dict[str, Any] = demo_request()
    answered(sitting, page, json.dumps(request))
    for place, size in ((5, "1.601 mm"), (5, "1.59 mm"), (33, "2.0004 mm"), (5, "1.601 mm")):
        drawer = [dict(row) for row in request["drawer"]]
        drawer[place]["measured"] = size
        request = {**request, "drawer": drawer}
        part = sitting.ask(json.dumps(request), "setting")
        page.take(part)
        told = json.loads(part)
        setting = next(each for each in told["stages"] if each["id"] == "setting")
        rows = next(each for each in setting["fields"] if isinstance(each, dict))["rows"]
        assert [at for at, row in enumerate(rows) if not isinstance(row, int)] == [place]
        assert [at for at, row in enumerate(told["others"]["drawer"]) if not isinstance(row, int)] == [place]
        while (part := sitting.more()) is not None:
            if part:
                page.take(part)
        assert exact(page.shown()) == exact(work(request))


@pytest.mark.parametrize(
    "text",
    [
        '{"units":"mm","history":[]}',
        '{"units":"inch","history":[{"format":9}],"entries":{"taper.size":"3"}}',
        '{"units":"inch","entries":{"taper.size":",\\"history\\":"},"history":[{"format":9}]}',
        '{"entries":{"taper.size":"3","history":"4"},"units":"inch"}',
        '{"entries":{"taper.size":"3"},"history":[[]}',
        '{"entries":{"taper.size":"3"},"history":[],"history":[1]}',
        '["a","history":[]]',
        "{" + '"entries":' + "[" * 300 + "]" * 300 + ',"history":[' + "[]," * 150 + "1]}",
        '{"entries":{},"history":' + "[" * 61 + "]" * 61 + "," * 0 + ',"units":"' + "[" * 500 + '"}',
    ],
)
def test_wherever_the_history_stands_the_request_reads_as_ever(text: str) -> None:
    sitting, page = Sitting(), Page()
    for each in (as_sent(demo_request()), text, text, as_sent(demo_request())):
        answered(sitting, page, each)
        assert exact(page.shown()) == exact(json.loads(work_text(each)))


def test_what_is_done_with_an_answer_changes_no_later_one() -> None:
    request = demo_request()
    before = json.dumps(work(request))
    answered: Any = work(request)
    for row in answered["drawer"]:
        row["measured"] = "1 mm"
    answered["drawer"].clear()
    assert json.dumps(work(request)) == before
