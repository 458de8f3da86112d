"""Pieces of board from sheets 1,200 × 800."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.catalogue.book import Book
from tundish.catalogue.item import Offer
from tundish.figure import between, number
from tundish.layout.boards import Laid, Lay, Shun, lay, sheet_of

SHEET = (1200.0, 800.0)


def laid(width: float, height: float, supports: Sequence[float] = (), left: float = 0) -> list[Laid]:
    return list(lay(Lay(number(width), number(height), number(left)), SHEET, [number(each) for each in supports]))


def sizes(pieces: Sequence[Laid]) -> list[tuple[float, float]]:
    return [(each.width.value, each.height.value) for each in pieces]


def test_no_higher_than_a_sheet_is_wide_lies() -> None:
    assert sizes(laid(1150, 800)) == [(1150, 800)]


def test_no_higher_than_a_sheet_is_long_stands() -> None:
    # Joints on the furthest support within 800 of the last: 770, then 1,230.
    assert sizes(laid(2000, 1186, (20.5, 395.25, 770, 1230, 1604.75, 1979.5))) == [(770, 1186), (460, 1186), (770, 1186)]


def test_higher_than_a_sheet_goes_in_rows_the_last_the_remainder() -> None:
    pieces = laid(1000, 2380)
    assert sizes(pieces) == [(1000, 800), (1000, 800), (1000, 780)]
    assert [each.z for each in pieces] == [0, 800, 1600]


def test_what_may_turn_out_higher_than_a_sheet_is_laid_for_that() -> None:
    """A height of 1,199 that may become 1,205 does not stand on a sheet of 1,200: it goes in rows that fit whatever is decided."""
    pieces = list(lay(Lay(number(600), between(1199, 1197, 1205), number(0)), SHEET, []))
    assert [(each.height.value, each.height.high) for each in pieces] == [(800, 800), (399, 405)]


def test_rows_that_may_still_come_are_not_cut_yet_and_no_row_outgrows_its_sheet() -> None:
    pieces = list(lay(Lay(number(600), between(306, 306, 6006), number(0)), SHEET, []))
    assert [(each.height.low, each.height.value, each.height.high) for each in pieces] == [(306, 306, 800)]


def test_whole_sheets_leave_no_sliver() -> None:
    assert sizes(laid(1200, 2400)) == [(1200, 800)] * 3
    assert sizes(laid(1200, 1600)) == [(1200, 800)] * 2


def test_joints_are_reckoned_from_the_left_wall() -> None:
    pieces = laid(2000, 225, (1100, 1500), left=300)
    assert [each.x for each in pieces] == [300, 1500]
    assert sizes(pieces) == [(1200, 225), (800, 225)]


def test_with_nothing_to_land_on_a_whole_sheet_is_laid() -> None:
    assert sizes(laid(3000, 225)) == [(1200, 225), (1200, 225), (600, 225)]


@pytest.mark.parametrize(("width", "height"), [(0, 500), (500, 0), (500, -20)])
def test_a_face_that_is_none_has_no_boards(width: float, height: float) -> None:
    assert not laid(width, height)


@given(st.floats(1, 9000), st.floats(1, 4000), st.lists(st.floats(0, 9000), max_size=30), st.floats(0, 2000))
def test_pieces_cover_the_face_once_and_fit_a_sheet(width: float, height: float, supports: list[float], left: float) -> None:
    pieces = laid(width, height, sorted(supports), left)
    assert math.isclose(sum(w * h for w, h in sizes(pieces)), width * height, rel_tol=1e-6)
    for w, h in sizes(pieces):
        assert max(w, h) <= 1200 + 1e-3
        assert min(w, h) <= 800 + 1e-3


def test_the_sheet_is_the_board_s_own_or_the_largest_offered_or_without_end(book: Book) -> None:
    board = book.item("board-cement-12")
    assert sheet_of(board, book) == SHEET
    sizeless = replace(board, sizes={"thickness": (12.0, "mm")})
    offers = tuple(Offer(board.code, "shop", "x", 1, Decimal(9), "2026-01-01", *size) for size in ((1200.0, 600.0), (900.0, 1800.0)))
    assert sheet_of(sizeless, replace(book, offers={board.code: offers})) == (1800, 900)
    assert sheet_of(sizeless, book) == (math.inf, math.inf)


def shunned(width: float, height: float, supports: Sequence[float], shun: Shun) -> list[Laid]:
    return list(lay(Lay(number(width), number(height), number(0)), SHEET, [number(each) for each in supports], shun))


def test_a_second_layer_ends_on_other_supports() -> None:
    first = laid(2000, 225, (400, 800, 1200, 1600))
    assert [each.x for each in first] == [0, 1200]
    second = shunned(2000, 225, (400, 800, 1200, 1600), Shun(behind=tuple(each.x for each in first)))
    assert [each.x for each in second] == [0, 800]


def test_a_second_layer_without_supports_begins_with_half_a_sheet() -> None:
    assert [each.x for each in shunned(2500, 225, (), Shun(behind=(0, 1200, 2400)))] == [0, 600, 1800]


def test_rows_of_a_second_layer_begin_with_half_a_sheet() -> None:
    """So that level joints of the two are as far apart as a sheet allows: NBS clause 612."""
    rows = shunned(1000, 2380, (), Shun(behind=(0,)))
    assert [(each.z, each.height.value) for each in rows] == [(0, 400), (400, 800), (1200, 800), (2000, 380)]


def test_a_joint_keeps_clear_of_the_side_of_an_opening_unless_nothing_else_is_there() -> None:
    assert [each.x for each in shunned(2000, 225, (700, 1150, 1500), Shun(sides=(1200,)))] == [0, 700, 1500]
    assert [each.x for each in shunned(2000, 225, (1150,), Shun(sides=(1200,)))] == [0, 1150]
    assert [each.x for each in shunned(2000, 225, (200, 1150), Shun(sides=(1200,)))] == [0, 1150]  # 200 would be a strip


@given(st.lists(st.integers(1, 40), max_size=12), st.lists(st.integers(0, 40), max_size=4), st.lists(st.integers(0, 40), max_size=4))
def test_no_other_way_over_the_supports_has_fewer_joints_where_they_are_not_wanted(
    supports: list[int], sides: list[int], behind: list[int]
) -> None:
    """Against every way there is, over a face of 2,050; only where the supports reach all along."""
    places = sorted({one * 50.0 for one in supports})
    shun = Shun(tuple(one * 50.0 for one in sides), tuple(one * 50.0 for one in behind))
    ways = [way for count in range(5) for way in combinations(places, count) if all(b - a <= 1200 for a, b in pairwise((0, *way, 2050)))]
    pieces = shunned(2050, 225, places, shun)
    if ways:
        assert all(each.width.value <= 1200 for each in pieces)
        assert badly([each.x for each in pieces[1:]], shun) == min(badly(way, shun) for way in ways)


def badly(joints: Sequence[float], shun: Shun) -> int:
    """Joints that are not wanted there, and pieces narrower than a quarter of a sheet before one."""
    if not shun.sides and not shun.behind:
        return 0
    return sum(shun.at(x) for x in joints) + sum(b - a < 300 for a, b in pairwise((0, *joints)))
