"""Pieces cut from sheets: they stay where they lie, nothing overlaps them, and what is left is planned into what is whole."""

from __future__ import annotations

from decimal import Decimal
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.catalogue.book import Book, RuleFigure
from tundish.catalogue.item import Item, Offer, RackPiece
from tundish.cutting.plan import Place, Rect, SheetPlan
from tundish.cutting.plans import CutPlan, plans
from tundish.cutting.saw_order import left_after
from tundish.desktop.sawing import marked, offcuts_of, unmarked
from tundish.estimate import Estimate, Job, estimate
from tundish.figure import number
from tundish.rules.rule import Cut, Need
from tundish.takeoff.line import Line

BOARD = Item("board", "Board", "board", "Boards", "each", {})
SAW = {key: RuleFigure(key, 3.0, "mm", key, "a test", "2026-01-01", 3.0) for key in ("cutting.kerf", "cutting.sheet_kerf", "cutting.keep")}
SAW["cutting.rack_worth"] = RuleFigure("cutting.rack_worth", 0.0, "%", "rack", "a test", "2026-01-01", 0.0)
WHOLE = Offer("board", "a", "B24", 1, Decimal("24.00"), "2026-01-01", 2400, 1200)
CHEAPER = Offer("board", "b", "X24", 1, Decimal("20.00"), "2026-01-01", 2400, 1200)


def book(*offers: Offer) -> Book:
    return Book({"board": BOARD}, {}, {}, {}, {"board": offers or (WHOLE,)}, SAW, rack=(RackPiece("R1", "board", 900, 600),))


def planned(sizes: list[tuple[int, int]], job: Job = Job(), of: Book | None = None) -> CutPlan:  # noqa: B008
    cuts = tuple(Cut(f"P{place}", number(long, "mm"), "board", width=number(wide, "mm")) for place, (long, wide) in enumerate(sizes))
    need = Need(number(1, "each"), "boarding", "a test", item="board", cuts=cuts)
    (plan,) = plans((Line(BOARD, number(1, "each"), (need,)),), of or book(), sawn=job.sawn)
    return plan


def places(plan: CutPlan) -> dict[str, tuple[int, Place]]:
    assert isinstance(plan.plan, SheetPlan)
    return {plan.cuts[one.piece].mark: (row, one) for row, cut in enumerate(plan.plan.cuts) for one in cut.places}


def sound(plan: CutPlan, count: int) -> None:
    """Every piece is there once, within its sheet, a kerf from every other and from what is left."""
    assert isinstance(plan.plan, SheetPlan)
    assert sorted(one.piece for cut in plan.plan.cuts for one in cut.places) == list(range(count))
    for cut in plan.plan.cuts:
        sheet = plan.plan.stock[cut.sheet]
        for one in cut.places:
            assert min(one.x, one.y) >= -0.01
            assert one.x + one.length <= sheet.length + 0.01
            assert one.y + one.width <= sheet.width + 0.01
        parts: list[Place | Rect] = [*cut.places, *cut.remainders]
        for here, there in combinations(parts, 2):
            across = max(here.x - there.x - there.length, there.x - here.x - here.length)
            apart = max(across, here.y - there.y - there.width, there.y - here.y - here.width)
            assert apart >= plan.plan.kerf - 0.2


SIZES = st.lists(st.tuples(st.integers(200, 2300), st.integers(200, 1100)), min_size=1, max_size=7)


@settings(max_examples=60, deadline=None)
@given(SIZES, st.data())
def test_what_is_cut_stays_where_it_lay_and_the_rest_is_planned_round_it(sizes: list[tuple[int, int]], data: st.DataObject) -> None:
    job, plan = Job(), planned(sizes)
    for _ in range(data.draw(st.integers(1, len(sizes)))):
        left = sorted(set(places(plan)) - plan.done)
        mark = data.draw(st.sampled_from(left))
        before = places(plan)[mark][1]
        job = marked(job, plan, mark)
        # Another list, as when a wall was measured anew: what is cut stays all the same.
        plan = planned(data.draw(st.sampled_from([sizes, [*sizes, (300, 300)]]))[: len(sizes)], job)
        after = places(plan)[mark][1]
        assert (after.x, after.y, after.length, after.width) == (before.x, before.y, before.length, before.width)
        sound(plan, len(sizes))
    more = planned([*sizes, (400, 350)], job)
    sound(more, len(sizes) + 1)
    assert all(places(more)[one.mark][1].x == (one.x.value if one.x else None) for one in job.sawn)


def test_a_piece_in_the_corner_leaves_two_parts_whole() -> None:
    piece = Place(0, 0, 0, 800, 500, turned=False)
    left = left_after(Rect(0, 0, 2400, 1200), (piece,), 3, piece)
    assert left == (Rect(803, 0, 1597, 1200), Rect(0, 503, 800, 697))


def test_a_piece_taken_back_may_lie_elsewhere_and_its_place_is_whole_again() -> None:
    sizes = [(1000, 1200), (1000, 1200), (390, 1200)]
    plan, job = planned(sizes), Job()
    job = marked(job, plan, "P0")
    plan = planned(sizes, job)
    job = marked(job, plan, "P1")
    job = unmarked(job, planned(sizes, job), "P0")
    after = planned(sizes, job)
    sound(after, 3)
    assert after.done == {"P1"}


def test_a_sheet_that_was_cut_keeps_its_price_when_another_supplier_sells_for_less() -> None:
    sizes = [(2000, 1100)]
    plan = planned(sizes)
    job = marked(Job(), plan, "P0")
    after = planned(sizes, job, book(CHEAPER, WHOLE))
    assert (after.plan.cost_pence, after.plan.stock[after.plan.used().index(1)].name) == (2400, "B24")


def test_offcuts_of_a_board_go_on_the_rack_in_the_sizes_that_are_whole(boarded: Estimate) -> None:
    job, worked = boarded.job, boarded
    plan = next(each for each in worked.cuts if isinstance(each.plan, SheetPlan))
    assert isinstance(plan.plan, SheetPlan)
    cut = next(cut for cut in plan.plan.cuts if not any(plan.cuts[one.piece].length.tbc for one in cut.places))
    marks = [plan.cuts[one.piece].mark for one in cut.places]
    price = worked.price.total
    for mark in marks:
        assert offcuts_of(worked) == ()
        job = marked(job, next(each for each in worked.cuts if each.item == plan.item), mark)
        worked = estimate(job, worked.book)
        assert worked.price.total == price
    (offcut,) = offcuts_of(worked)
    assert offcut.used == 1
    assert all(min(size) >= 150 for size in offcut.kept)
