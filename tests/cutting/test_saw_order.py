"""The order of the cuts of a sheet, followed as a person follows it: cut by cut, with what then lies on the bench."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as some

from tests.cutting.test_sheets import PIECES, STOCK
from tundish.cutting.plan import Effort, Piece, Place, Rect, Sheet, SheetCut, SheetPlan
from tundish.cutting.saw_order import saw_order, strokes
from tundish.cutting.sheets import plan_sheets

Part = tuple[float, float, float, float]
"""Left, foot, right and top."""


def on_the_bench(plan: SheetPlan, cut: SheetCut) -> tuple[set[Part], list[int]]:
    """Every part there is after the last cut, and the pieces told to be finished, by order; each cut needs its part in hand."""
    sheet, trim = plan.stock[cut.sheet], plan.trim
    bench = {_rounded(trim, trim, sheet.length - trim, sheet.width - trim)}
    told: list[int] = []
    for stroke in strokes(plan, cut):
        part = stroke.part
        in_hand = _rounded(part.x, part.y, part.x + part.length, part.y + part.width)
        assert in_hand in bench, "a cut goes through a part that is on the bench"
        bench.remove(in_hand)
        left, foot, right, top = in_hand
        at = (foot if stroke.axis else left) + stroke.at
        assert (foot if stroke.axis else left) < at < (top if stroke.axis else right)
        after = at + plan.kerf
        if stroke.axis:
            bench |= {_rounded(left, foot, right, at), _rounded(left, after, right, max(top, after))}
        else:
            bench |= {_rounded(left, foot, at, top), _rounded(after, foot, max(right, after), top)}
        told += stroke.frees
    return bench, told


def _rounded(*sides: float) -> Part:
    left, foot, right, top = (round(side, 2) for side in sides)
    return left, foot, right, top


@settings(max_examples=100)
@given(PIECES, STOCK, some.sampled_from((0.0, 1.0, 2.5)), some.sampled_from((0.0, 5.0)))
def test_whoever_follows_the_cuts_has_every_piece_and_each_is_told_once(
    pieces: list[Piece], stock: list[Sheet], kerf: float, trim: float
) -> None:
    plan = plan_sheets(pieces, stock, kerf, trim, Effort.QUICK)
    for cut in plan.cuts:
        bench, told = on_the_bench(plan, cut)
        assert {_rounded(one.x, one.y, one.x + one.length, one.y + one.width) for one in cut.places} <= bench
        if told or len(cut.places) > 1:
            assert sorted(told) == sorted(one.piece for one in cut.places)


def test_the_cuts_in_words_name_the_part_in_hand_and_both_pieces_of_the_last_cut() -> None:
    plan = plan_sheets([Piece("A", 697, width=600), Piece("B", 500, width=600)], [Sheet(1200, 800, 900)], kerf=3.0)
    assert list(saw_order(plan, plan.cuts[0], ["A", "B"])) == [
        "1. Whole sheet at 600 from the foot.",
        "2. The 1,200 × 600 at 500 from the left, gives B and A.",
    ]


def test_edges_to_trim_come_first() -> None:
    plan = plan_sheets([Piece("A", 300, width=250)], [Sheet(400, 300, 900)], trim=2.5)
    assert list(saw_order(plan, plan.cuts[0], ["A", "B"])) == [
        "Trim 2.5 off all four edges.",
        "1. Whole sheet at 300 from the left.",
        "2. The 300 × 295 at 250 from the foot, gives A.",
    ]


def test_scrap_comes_off_at_once_and_is_not_sawn_up() -> None:
    """Over three pieces in a row lie three strips of scrap: one cut takes all of them off, and nobody parts them."""
    places = tuple(Place(one, 400.0 * one, 0, 400, 250, turned=False) for one in range(3))
    strips = tuple(Rect(400.0 * one, 250, 400, 50) for one in range(3))
    plan = SheetPlan((Sheet(1200, 300, 1),), (Piece("A", 400, 3, width=250),), (), 1, 1, True, (), 0.0, 0.0)
    assert len(strokes(plan, SheetCut(0, places, strips))) == 3


def test_a_lone_piece_among_scrap_takes_two_cuts() -> None:
    """However the plan has laid the scrap round it: 1,465 by 120 out of 1,895 by 140."""
    scrap = (Rect(1883, 0, 12, 140), Rect(0, 137, 1883, 3), Rect(1467, 0, 416, 137), Rect(0, 131, 1467, 6), Rect(0, 120, 1465, 11))
    plan = SheetPlan((Sheet(1895, 140, 1),), (Piece("A", 1465, width=120),), (), 1, 1, True, (), 0.0, 0.0)
    cut = SheetCut(0, (Place(0, 0, 0, 1465, 120, turned=False),), (*scrap, Rect(1465, 0, 2, 131)))
    assert [(each.axis, each.at, each.frees) for each in strokes(plan, cut)] == [(0, 1465, ()), (1, 120, (0,))]
