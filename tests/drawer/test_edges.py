"""What the search says where there is little to find, and the order in which a stack is built."""

from __future__ import annotations

import pytest

from calc.drawer import FLAT, LEAF, ROUND, Limits, Piece, Stack, find_stacks


def piece(size_nm: int, shape: str = FLAT, name: str = "", count: int = 1, doubt: float = 1000.0) -> Piece:
    return Piece(name or f"{size_nm}", shape, size_nm, doubt, True, count)


def test_empty_drawer() -> None:
    found = find_stacks([], 2_497_000)
    assert found.stacks == () and found.best is None and found.complete
    assert found.reason == "empty"
    assert found.notes("mm") == (
        "The drawer holds no piece that can be used. A piece of 2.497 mm would do it alone.",
    )


@pytest.mark.parametrize("useless", [piece(1000, count=0), piece(0), piece(-5)])
def test_pieces_that_are_none(useless: Piece) -> None:
    assert find_stacks([useless], 1000).reason == "empty"


def test_only_leaves_where_none_are_allowed() -> None:
    assert find_stacks([piece(1000, LEAF)], 1000, Limits(most_leaves=0)).reason == "empty"


@pytest.mark.parametrize("target", [0, -1, -2_500_000])
def test_no_height(target: int) -> None:
    found = find_stacks([piece(1000)], target)
    assert found.stacks == () and found.reason == "no_height"
    assert found.notes() == ("There is no gap to fill: the height asked for is not more than zero.",)


def test_one_piece() -> None:
    found = find_stacks([piece(2_500_000, ROUND, "2.5 drill")], 2_500_000)
    assert [stack.words() for stack in found.stacks] == ["2.5 drill"]
    assert found.reason == "" and found.notes() == ()
    assert found.stacks[0].interfaces == 2
    assert found.stacks[0].error_nm == 0


def test_every_stack_too_high() -> None:
    found = find_stacks([piece(3_000_000), piece(4_000_000)], 2_500_000, Limits(told_apart_nm=400))
    assert found.reason == "too_low"
    assert found.best is not None and found.best.error_nm == 500_000
    note = " ".join(found.notes("mm"))
    assert "higher than asked" in note and "0.5" in note and "too high" in note and "2.5" in note
    assert found.closing_nm is None


def test_every_stack_too_low() -> None:
    found = find_stacks([piece(1_000_000), piece(500_000, ROUND)], 2_497_000, Limits(told_apart_nm=400))
    assert found.reason == "too_high"
    assert found.best is not None and found.best.height_nm == 1_500_000
    assert found.closing_nm == 997_000
    assert any("0.997 mm on top" in note for note in found.notes("mm"))
    assert any("in on top" in note for note in found.notes("inch"))


def test_rules_count_for_out_of_reach() -> None:
    """Two rounds would reach, but only one goes in a stack."""
    found = find_stacks([piece(2_000_000, ROUND), piece(2_100_000, ROUND)], 4_000_000, Limits())
    assert found.reason == "too_high"
    assert found.best is not None and found.best.height_nm == 2_100_000


def test_between_but_not_near() -> None:
    found = find_stacks([piece(1_000_000), piece(3_000_000)], 2_000_000, Limits(told_apart_nm=400))
    assert found.reason == "not_near"
    assert any("comes nearer" in note for note in found.notes())


def test_nobody_is_sent_for_a_piece_thinner_than_any_shim() -> None:
    found = find_stacks([piece(1_000_000)], 1_009_000, Limits(told_apart_nm=400))
    assert found.reason and found.closing_nm is None
    assert not any("on top of" in note for note in found.notes())
    assert find_stacks([piece(1_000_000)], 1_010_000, Limits(told_apart_nm=400)).closing_nm == 10_000


def test_inside_one_step_is_not_a_complaint() -> None:
    assert find_stacks([piece(1_000_399)], 1_000_000, Limits(told_apart_nm=400)).reason == ""
    assert find_stacks([piece(1_000_400)], 1_000_000, Limits(told_apart_nm=400)).reason == "too_low"


def test_equal_pieces_come_once_under_the_first_label() -> None:
    equal = [Piece(name, FLAT, 1_000_000, 500.0, True, 1, place) for place, name in enumerate("abc")]
    found = find_stacks(equal, 2_000_000)
    assert [stack.words() for stack in found.stacks] == ["a + b", "a", "a + b + c"]


def test_count_limits_repeats() -> None:
    found = find_stacks([piece(1_000_000, name="block", count=3)], 5_000_000)
    assert found.best is not None and found.best.words() == "3 × block"
    assert len(found.stacks) == 3


def test_certain_pieces_win_inside_a_step_and_the_nearest_where_told_apart() -> None:
    pieces = [piece(2_000_100, name="block", doubt=100.0), piece(2_000_000, ROUND, "drill", doubt=5000.0)]
    limits = Limits(told_apart_nm=400)
    found = find_stacks(pieces, 2_000_000, limits)
    assert found.best is not None and found.best.words() == "block"
    nearest = find_stacks(pieces, 2_000_000, Limits(told_apart_nm=1)).best
    assert nearest is not None and nearest.words() == "drill"


def test_work_limit_is_told() -> None:
    pieces = [Piece(f"{n}", FLAT, 1_000_000 + n * n * 37, 1000.0 + n, True, 1, n) for n in range(60)]
    found = find_stacks(pieces, 4_050_000, Limits(told_apart_nm=1, work_limit=200))
    assert not found.complete
    assert found.stacks
    assert any("Not proved best" in note for note in found.notes())
    assert find_stacks(pieces, 4_050_000, Limits(told_apart_nm=1)).complete


def test_too_many_different_pieces_are_told() -> None:
    pieces = [Piece(f"{n}", ROUND, 1_000_000 + n, 1000.0, True, 1, n) for n in range(1100)]
    found = find_stacks(pieces, 1_000_500)
    assert not found.complete and found.best is not None and found.best.error_nm == 0


def test_beyond_five_pieces_and_below_one_are_clamped() -> None:
    pieces = [piece(1_000_000 + n, name=str(n)) for n in range(7)]
    six = find_stacks(pieces, 6_000_000, Limits(most_pieces=9))
    assert six.best is not None and len(six.best.pieces) == 5
    none = find_stacks(pieces, 6_000_000, Limits(most_pieces=0))
    assert none.best is not None and len(none.best.pieces) == 1


def order(*pieces: Piece) -> list[str]:
    height = sum(each.size_nm for each in pieces)
    return [each.name for each in Stack(pieces, height, 0, 0.0).building_order()]


def test_building_order_keeps_leaves_between_hard_faces_and_a_block_for_the_pin() -> None:
    drill, leaf = piece(2_000_000, ROUND, "drill"), piece(100_000, LEAF, "leaf")
    one, two, three = (piece(size, FLAT, name) for size, name in ((3, "one"), (2, "two"), (1, "three")))
    assert order(drill) == ["drill"]
    assert order(drill, leaf) == ["leaf", "drill"]
    assert order(drill, one, leaf) == ["leaf", "drill", "one"]
    assert order(one, leaf) == ["leaf", "one"]
    assert order(one, two, leaf) == ["one", "leaf", "two"]
    assert order(drill, one, two, three, leaf) == ["one", "leaf", "two", "drill", "three"]


def test_building_words() -> None:
    drill, leaf = piece(2_000_000, ROUND, "2.0 drill"), piece(100_000, LEAF, "0.1 leaf")
    assert Stack((drill,), 0, 0, 0.0).building_words() == (
        "Put the 2.0 drill between the face that the stack stands on and the roller."
    )
    assert Stack((drill, leaf), 0, 0, 0.0).building_words() == (
        "From the face that the stack stands on to the roller: 0.1 leaf, then 2.0 drill."
    )
