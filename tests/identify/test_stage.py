"""The question as the taper stage asks it: entries in, figure and words out."""

from __future__ import annotations

import pytest

from calc.cone import Cone
from calc.sheet import Figure
from calc.stages.common.form import Form
from calc.stages.taper import holding
from calc.stages.taper.unknown import IDS, Unknown, cautions, figures, find

TOLD = {"taper.large_diameter": "17.5", "taper.small_diameter": "15.5", "taper.length": "40"}


def asked(entries: dict[str, str], system: str = "mm") -> tuple[Form, Unknown]:
    form = Form(entries, system)
    return form, find(form)


def fault(form: Form, name: str) -> str:
    return next(each.wrong.message if each.wrong else "" for each in form.fields if each.id == name)


def test_a_leader_is_what_the_job_goes_on_with() -> None:
    """Morse 2 and its inch twin have the most of it: the cone is the table's, not the measured one."""
    form, answered = asked(TOLD)
    assert not form.wrong
    assert answered.cone.standard is not None and answered.cone.standard.name == "Morse 2"
    assert answered.cone.cone is not None and answered.cone.cone.large_diameter == 17.78
    assert any("goes on with Morse 2 (metric)" in each.text for each in cautions(answered, "mm"))
    (figure,) = figures(answered)
    assert figure.id == "taper.candidates"
    assert isinstance(figure.value, list)
    assert [(each["series"], each["size"]) for each in figure.value[:2]] == [
        ("Morse", "2"),
        ("Morse inch", "2"),
    ]
    assert sum(each["probability"] for each in figure.value) == pytest.approx(1.0, abs=0.03)
    assert figure.table is not None and [row.best for row in figure.table.rows].count(True) == 1
    assert figure.table.rows[-1].cells[0]["mm"] == "None of these"


def test_the_same_measures_in_inches_say_the_same() -> None:
    inches = {name: f"{float(text) / 25.4:.6f}" for name, text in TOLD.items()}
    gives = {"taper.diameter_give": "0.01 mm", "taper.length_give": "0.02 mm"}
    _, metric = asked({**TOLD, **gives})
    _, inch = asked({**inches, **gives}, "inch")
    one, other = figures(metric)[0].value, figures(inch)[0].value
    assert isinstance(one, list) and isinstance(other, list)
    for here, there in zip(one, other, strict=True):
        assert (here["series"], here["size"]) == (there["series"], there["size"])
        assert here["probability"] == pytest.approx(there["probability"], abs=0.005)


def test_nothing_sure_goes_on_as_measured() -> None:
    _, answered = asked({**TOLD, "taper.small_diameter": "15.68"})
    assert answered.cone.standard is None
    assert answered.cone.cone == Cone((17.5 - 15.68) / 40, 17.5, 15.68, 40.0)
    last = cautions(answered, "mm")[-1]
    assert (last.level, last.text) == ("care", "The rest of the job goes on with the taper as measured.")


@pytest.mark.parametrize(
    ("entries", "name", "message"),
    [
        ({**TOLD, "taper.small_diameter": "18"}, "taper.small_diameter", "larger than the larger diameter"),
        ({**TOLD, "taper.length_give": "40"}, "taper.length_give", "as much as the distance"),
        ({"taper.rate": "0"}, "taper.rate", "no taper"),
        ({"taper.stand_off": "1", "taper.socket_size": "99"}, "taper.socket_size", "not one of the choices"),
        ({"taper.large_diameter": "-3"}, "taper.large_diameter", "too small"),
    ],
)
def test_what_cannot_stand_is_said_beside_its_field(entries: dict[str, str], name: str, message: str) -> None:
    form, answered = asked(entries)
    assert form.wrong and message in fault(form, name)
    assert figures(answered) == [] and answered.cone.cone is None


@pytest.mark.parametrize(
    ("entries", "wanted"),
    [
        ({}, "measure two diameters and their distance, or enter a taper or a stand-off"),
        (
            {"taper.large_diameter": "17"},
            "measure two diameters and their distance, or enter a taper or a stand-off",
        ),
        ({"taper.stand_off": "2"}, "choose the socket it was tried in"),
    ],
)
def test_too_little_says_what_is_wanted(entries: dict[str, str], wanted: str) -> None:
    form, answered = asked(entries)
    assert not form.wrong and answered.cone.wanted == wanted


def test_every_new_entry_is_asked_and_normalised() -> None:
    entries = {
        **TOLD,
        "taper.rate": "1:20",
        "taper.rate_give": "0.001",
        "taper.diameter_give": "0.01",
        "taper.length_give": "0.05",
        "taper.stand_off": "-2",
        "taper.stand_off_give": "0.5",
        "taper.socket_series": "Morse",
        "taper.socket_size": "2",
        "taper.end_diameter": "17.8",
        "taper.whole_length": "64",
    }
    form, answered = asked(entries)
    assert not form.wrong
    assert set(IDS) <= {each.id for each in form.fields}
    assert set(form.normalised) == set(entries)
    again = Form(form.normalised, "inch")
    one, other = figures(answered)[0].value, figures(find(again))[0].value
    assert one == other


def test_holding_is_a_figure_with_its_numbers() -> None:
    figure = holding.figure(Cone(7 / 24))
    assert isinstance(figure, Figure)
    assert figure.value == "releasing: steep, self-releasing by class"
    assert "0.1458 within 0.10 to 0.16" in figure.working[1].numbers["mm"]
    assert "self-releasing" in figure.working[0].formula
    assert "from memory" in figure.source
    assert holding.figure(Cone(0.0)) is None
