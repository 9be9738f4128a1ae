"""Rows of a drawer as typed: what becomes a piece, what is answered, and that nothing raises."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.drawer import KEYS, Piece, PieceRow, read_drawer
from calc.drawer.as_sold import as_sold
from calc.tables.loader import load


def number_seven(name: str) -> Fraction | None:
    """The #7 drill is 0.201 in (ASME B94.11M); no other is known here."""
    return Fraction("5.1054") if name.strip("# ") == "7" else None


def row(unit: str = "mm", **typed: object) -> PieceRow:
    return read_drawer([typed], unit, number_seven).rows[0]


def test_measured_piece() -> None:
    read = row(name="4.2 drill", shape="round", size="4.2", measured="4.187mm", give="0.002", count="2")
    assert read.faults == {} and read.cautions == []
    assert read.piece is not None
    assert (read.piece.name, read.piece.shape, read.piece.size_nm) == ("4.2 drill", "round", 4_187_000)
    assert read.piece.measured and read.piece.count == 2
    # GUM (JCGM 100) 4.3.7: limits of half-width a have the standard uncertainty a / sqrt 3.
    assert read.piece.standard_nm == pytest.approx(2000.0 / math.sqrt(3.0), rel=1e-15)
    assert read.normalised == {
        "name": "4.2 drill",
        "shape": "round",
        "size": "4.2 mm",
        "measured": "4.187 mm",
        "give": "0.002 mm",
        "count": "2",
    }


def test_measured_without_give_is_a_micrometer_reading() -> None:
    piece = row(shape="round", measured="0.1650 in").piece
    assert piece is not None and piece.size_nm == 4_191_000
    assert piece.standard_nm == pytest.approx(2540.0 / math.sqrt(3.0), rel=1e-15)


@pytest.mark.parametrize(
    ("size", "lower_um"),
    # Drill maker's catalogue, "Diameter tolerances", and a table of ISO h8: 0 to minus these.
    [("2.5", 14), ("3", 14), ("3.01", 18), ("6", 18), ("10", 22), ("13", 27), ("25", 33), ("0.8", 14)],
)
def test_unmeasured_drill_is_the_middle_of_h8(size: str, lower_um: int) -> None:
    piece = row(shape="drill", size=size).piece
    assert piece is not None and not piece.measured
    assert piece.size_nm == Fraction(size) * 1_000_000 - lower_um * 500
    assert piece.standard_nm == pytest.approx(lower_um * 500 / math.sqrt(3.0), rel=1e-15)


@pytest.mark.parametrize(("size", "limit_nm"), [("5", 450), ("10", 450), ("20", 600), ("100", 1200)])
def test_unmeasured_block_is_grade_2(size: str, limit_nm: int) -> None:
    """Gauge block tolerance table by DIN 861, stated to correspond with ISO 3650, grade 2."""
    piece = row(shape="flat", name="a slip", size=size).piece
    assert piece is not None and piece.size_nm == int(size) * 1_000_000
    assert piece.standard_nm == pytest.approx(limit_nm / math.sqrt(3.0), rel=1e-15)


def test_unmeasured_leaf() -> None:
    """Five micrometres either way: common practice, no source."""
    read = row(shape="leaf", size="0.15")
    assert read.piece is not None and read.piece.size_nm == 150_000
    assert read.piece.standard_nm == pytest.approx(5000.0 / math.sqrt(3.0), rel=1e-15)
    assert "not measured" in read.taken_as["mm"] and "no source" in read.taken_as["mm"]


def test_beyond_a_table_the_words_say_so() -> None:
    assert "does not reach" in as_sold("drill", 130_000_000).words
    assert "does not reach" in as_sold("drill", 1_000_000).words
    assert "does not reach" in as_sold("gauge block", 600_000_000).words
    assert "does not reach" not in as_sold("drill", 1_000_001).words
    assert "does not reach" not in as_sold("gauge block", 500_000_000).words


def test_stated_give_without_measuring_keeps_the_size() -> None:
    piece = row(shape="round", size="5", give="± 3 thou").piece
    assert piece is not None and piece.size_nm == 5_000_000 and not piece.measured
    assert piece.standard_nm == pytest.approx(76_200 / math.sqrt(3.0), rel=1e-15)


def test_give_of_nothing_is_taken_at_its_word() -> None:
    piece = row(shape="flat", size="5", give="0").piece
    assert piece is not None and piece.standard_nm == 0.0


def test_thirds_of_an_inch_go_to_the_nearest_nanometre() -> None:
    read = row(shape="flat", measured="1/3 in")
    assert read.piece is not None and read.piece.size_nm == 8_466_667
    assert "nearest nanometre" in read.read["measured"]
    assert "nanometre" not in row(shape="flat", measured="1/64 in").read["measured"]


def test_unit_of_a_bare_number() -> None:
    piece = row("in", shape="flat", measured=".25").piece
    assert piece is not None and piece.size_nm == 6_350_000


def test_named_drill() -> None:
    read = row(shape="round", size="#7 drill", measured="0.2008 in")
    assert read.faults == {} and read.cautions == []
    assert read.piece is not None and read.piece.size_nm == 5_100_320


@pytest.mark.parametrize(
    ("typed", "shape"),
    [
        ("drill", "round"),
        ("Pin", "round"),
        ("dowel pin", "round"),
        ("block", "flat"),
        ("gauge block", "flat"),
        ("feeler", "leaf"),
        ("feeler gauge", "leaf"),
        (" LEAF ", "leaf"),
        ("flat", "flat"),
    ],
)
def test_words_for_a_shape(typed: str, shape: str) -> None:
    read = row(shape=typed, size="1")
    assert read.shape == shape and read.piece is not None and read.piece.shape == shape
    assert read.normalised["shape"] == shape
    assert ("shape" in read.read) == (typed.strip().lower() != shape)


def test_shape_from_the_name_or_the_safe_side() -> None:
    assert row(name="leaf 0.05", size="0.05").shape == "leaf"
    unknown = row(name="odd bit", size="3")
    assert unknown.shape == "round" and "no shape" in unknown.read["shape"]


def test_unknown_shape_offers_three() -> None:
    fault = row(shape="egg", size="3").faults["shape"]
    assert fault.offers == ("round", "flat", "leaf") and (fault.start, fault.end) == (0, 3)
    assert "egg" in fault.message
    for offer in fault.offers:
        assert row(shape=offer, size="3").piece is not None


@pytest.mark.parametrize(
    ("shape", "name"),
    [("round", "drill"), ("flat", "flat"), ("block", "block"), ("leaf", "leaf"), ("dowel", "dowel")],
)
def test_a_piece_without_name_gets_one(shape: str, name: str) -> None:
    piece = row(shape=shape, size="0.5").piece
    assert piece is not None and piece.name == f"0.5 mm {name}"


def test_name_is_one_line_and_short() -> None:
    piece = row(name="a\n\tb\x00c " + "x" * 5000, size="2").piece
    assert piece is not None and piece.name.startswith("a b c x") and len(piece.name) == 60


@pytest.mark.parametrize(
    ("size", "measured", "minded"),
    [
        ("4.2", "4.817", True),
        ("4.2", "4.187", False),
        ("4.2", "4.39", False),
        ("0.05", "0.06", False),
        ("0.05", "0.069", False),
        ("0.05", "0.071", True),
        ("30", "30.4", False),
        ("30", "30.6", True),
    ],
)
def test_measured_far_from_named(size: str, measured: str, minded: bool) -> None:
    read = row(shape="round", size=size, measured=measured)
    assert bool(read.cautions) == minded
    assert read.piece is not None and read.piece.size_nm == Fraction(measured) * 1_000_000
    assert read.piece.size_mm == pytest.approx(float(measured), rel=1e-12)


@pytest.mark.parametrize(
    ("typed", "key", "said"),
    [
        ({"size": "0"}, "size", "more than zero"),
        ({"size": "-3"}, "size", "more than zero"),
        ({"measured": "-3"}, "measured", "more than zero"),
        ({"size": "1001"}, "size", "more than 1 m"),
        ({"size": "0.0000001"}, "size", "less than a nanometre"),
        ({"size": "thick"}, "size", ""),
        ({"size": "3", "give": "-0.001"}, "give", "below zero"),
        ({"size": "3", "give": "3"}, "give", "as much as the piece"),
        ({"size": "3", "count": "-1"}, "count", ""),
        ({"size": "3", "count": "100"}, "count", ""),
        ({"size": "3", "count": "2.5"}, "count", "whole number"),
        ({"size": ["3"]}, "size", "neither text nor a number"),
        ({"size": "3", "name": {}}, "name", "neither text nor a number"),
        ({"size": True}, "size", "neither text nor a number"),
        ({"name": "odd bit"}, "size", "no size"),
    ],
)
def test_faults_stand_beside_their_key(typed: dict[str, object], key: str, said: str) -> None:
    read = row(**typed)
    assert list(read.faults) == [key]
    assert said in read.faults[key].message and read.faults[key].way_out
    assert read.piece is None


def test_place_of_a_fault_behind_a_sign() -> None:
    fault = row(size="3", give=" ± 2 foo").faults["give"]
    assert fault.text[fault.start : fault.end] == "foo"


def test_name_that_reads_as_a_size_is_offered() -> None:
    assert row(name="4.2mm drill").faults["size"].offers == ("4.2 mm",)
    assert row(name="#7 drill").faults["size"].offers == ("5.1054 mm",)
    assert row("in", name="#7 drill").faults["size"].offers == ("0.201 in",)


def test_one_bad_row_stops_no_other() -> None:
    drawer = read_drawer([{"size": "bad"}, {"size": "2", "shape": "flat"}, 7, {"size": "3"}])
    assert [piece.place for piece in drawer.pieces] == [1, 3]
    assert drawer.rows[2].faults["name"].message == "this row is not a piece"


def test_empty_row_is_no_fault_and_count_of_none_no_piece() -> None:
    empty = row(name="", shape="round", size=" ", count="1")
    assert empty.faults == {} and empty.piece is None
    none = row(size="2", count=0)
    assert none.faults == {} and none.piece is None


@pytest.mark.parametrize("rows", [None, 5, "abc", {"size": "2"}, 1.5])
def test_no_list_at_all(rows: object) -> None:
    drawer = read_drawer(rows)
    assert drawer.rows == () and drawer.pieces == ()
    assert bool(drawer.note) == (rows is not None)


def test_ten_thousand_rows() -> None:
    drawer = read_drawer([{"size": "2"}] * 10_000)
    assert len(drawer.rows) == 300 and len(drawer.pieces) == 300
    assert "10000" in drawer.note and "300" in drawer.note


anything = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=30),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=6,
)
hostile_row = st.dictionaries(
    st.sampled_from(KEYS),
    anything
    | st.sampled_from(["4.2mm + 6thou", "1-3/8", "34,9", "1e999", "nan", "9" * 10_000, "\ud800", "±"]),
)


@settings(max_examples=150, deadline=None)
@given(anything | st.lists(hostile_row | anything, max_size=4), st.sampled_from(["mm", "in"]))
def test_nothing_raises_and_every_answer_is_whole(rows: object, unit: str) -> None:
    for read in read_drawer(rows, unit, number_seven).rows:
        assert set(read.typed) == set(read.normalised) == set(KEYS)
        assert read.piece is None or not read.faults
        if read.piece is not None:
            assert 1 <= read.piece.size_nm <= 1_000_000_000
            assert math.isfinite(read.piece.standard_nm) and read.piece.name
        for fault in read.faults.values():
            assert 0 <= fault.start <= fault.end <= len(fault.text)


size_text = st.decimals(min_value="0.001", max_value="900", places=4).map(str)


@settings(max_examples=100, deadline=None)
@given(
    st.fixed_dictionaries(
        {"size": size_text},
        optional={
            "measured": size_text,
            "give": st.sampled_from(["0", "0.0001", "1 tenth"]),
            "shape": st.sampled_from(["round", "block", "leaf", ""]),
            "name": st.sampled_from(["", "a piece", "leaf"]),
            "count": st.integers(0, 9),
        },
    ),
    st.sampled_from(["mm", "in"]),
)
def test_normalised_rows_mean_the_same_in_either_unit_system(typed: dict[str, object], unit: str) -> None:
    first = read_drawer([typed], unit).rows[0]
    if first.faults:
        return
    for other in ("mm", "in"):
        again = read_drawer([first.normalised], other).rows[0]
        assert again.faults == {}
        assert again.piece == first.piece
        assert again.normalised == first.normalised


@pytest.mark.parametrize("word", ["block", "gauge block", "slip"])
def test_what_is_called_a_gauge_block_is_one(word: str) -> None:
    """By its name, by the word given for its shape, and still so when the row is read again as kept."""
    by_name = row(shape="flat", name=f"5 mm {word}", size="5")
    by_word = row(shape=word, size="5")
    again = row(**by_word.normalised)
    for read in (by_name, by_word, again):
        assert read.piece is not None
        # Gauge block tolerance table by DIN 861, grade 2: 0.45 um up to 10 mm.
        assert read.piece.standard_nm == pytest.approx(450.0 / math.sqrt(3.0))


@pytest.mark.parametrize(
    ("shape", "name"),
    [("flat", ""), ("flat", "key steel"), ("", "tool bit"), ("flat", "1/4 square"), ("", "parallel")],
)
def test_a_plain_flat_is_no_gauge_block(shape: str, name: str) -> None:
    """Key steel or a tool bit is known to a hundredth or two of a millimetre: common practice, no source."""
    read = row(shape=shape, name=name, size="6")
    assert read.shape == "flat" and read.piece is not None
    assert 10_000.0 <= read.piece.standard_nm * math.sqrt(3.0) <= 20_000.0 + 1e-6
    assert "no source" in read.taken_as["mm"]


def test_an_unmeasured_dowel_is_m6() -> None:
    """m6 from the ISO 286 tables: lower deviation m, upper m and IT6 (3 to 6 mm: +4 to +12 um)."""
    bands = {(r["kind"], r["symbol"], r["grade_from"], r["over"]): int(r["value"]) for r in load("iso286")}
    for size, over in ((2, "0"), (5, "3"), (8, "6"), (12, "10"), (25, "18"), (40, "30")):
        lower = bands["shaft", "m", "5", over]
        upper = lower + bands["tolerance", "", "6", over]
        piece = row(name=f"{size} dowel", size=str(size)).piece
        assert piece is not None and piece.shape == "round"
        assert piece.size_nm == size * 1_000_000 + (lower + upper) * 500
        assert piece.standard_nm == pytest.approx((upper - lower) * 500 / math.sqrt(3.0))
    inch = row("in", name="dowel", size="1/4").piece
    assert inch is not None and 6_350_000 + 2540 <= inch.size_nm <= 6_350_000 + 7620


@pytest.mark.parametrize("name", ["8 roller", "8 ball"])
def test_a_roller_or_ball_is_no_drill(name: str) -> None:
    """It lies about its size, wide, and says that this has no source."""
    read = row(name=name, size="8")
    assert read.piece is not None and read.piece.size_nm == 8_000_000
    assert "no source" in read.taken_as["mm"] and "DIN 338" not in read.taken_as["mm"]


def test_a_pin_may_be_a_dowel_or_no_more_than_a_drill() -> None:
    """Its limits reach over those of both."""
    pin, dowel, drill = (row(name=name, size="8").piece for name in ("pin", "dowel", "drill"))
    assert pin is not None and dowel is not None and drill is not None

    def reach(piece: Piece) -> tuple[float, float]:
        half = piece.standard_nm * math.sqrt(3.0)
        return piece.size_nm - half, piece.size_nm + half

    assert reach(pin)[0] <= reach(drill)[0] + 1 and reach(pin)[1] >= reach(dowel)[1] - 1


def test_a_drill_that_is_none_is_said_beside_its_measure() -> None:
    """Sold 4.2 and measures 4.9: another drill, or a slip; what to do stands with it."""
    read = row(name="4.2 drill", size="4.2", measured="4.9")
    assert "sold as 4.2 mm" in read.read["measured"] and "measure it again" in read.read["measured"]
    assert "Measure again" in read.cautions[0]


@pytest.mark.parametrize(
    ("unit", "typed", "offer", "millimetres"),
    [("in", "6", "6 thou", "0.1524"), ("mm", "15", "0.15 mm", "0.15"), ("in", "1+1", "2 thou", "0.0508")],
)
def test_a_leaf_as_thick_as_a_thumb_is_asked_about(
    unit: str, typed: str, offer: str, millimetres: str
) -> None:
    """How it was read is said; an offer is taken as it stands; a unit of one's own is believed."""
    for key in ("size", "measured"):
        fault = row(unit, shape="leaf", **{key: typed}).faults[key]
        assert "read as" in fault.message and offer in fault.offers
        for each in fault.offers:
            assert row(unit, shape="leaf", **{key: each}).piece is not None
        taken = row(unit, shape="leaf", **{key: offer}).readings[key]
        assert taken.exact == Fraction(millimetres)
    assert row("in", shape="leaf", size="6 in").piece is not None
    assert row("in", shape="flat", size="6").piece is not None
    assert row("in", shape="leaf", size=".006").piece is not None
