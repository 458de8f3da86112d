"""Pieces that are cut: they stay where they are, and the rest is planned round them."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.catalogue.book import Book, RuleFigure
from tundish.catalogue.item import Item, Offer, RackPiece
from tundish.cutting.plan import BarPlan
from tundish.cutting.plans import CutPlan, plans
from tundish.cutting.sawn import Sawn
from tundish.field import Entry
from tundish.figure import number
from tundish.rules.rule import Cut, Need
from tundish.takeoff.line import Line

BAR = Item("bar", "Bar", "strut", "Things", "mm", {})
SAW = {
    key: RuleFigure(key, value, "mm", key, "a test", "2026-01-01", value)
    for key, value in {"cutting.kerf": 3.0, "cutting.sheet_kerf": 3.0, "cutting.keep": 300.0, "cutting.rack_worth": 0.0}.items()
}
WHOLE = Offer("bar", "a", "B3", 3000, Decimal("9.00"), "2026-01-01", 3000)
BOOK = Book({"bar": BAR}, {}, {}, {}, {"bar": (WHOLE,)}, SAW, rack=(RackPiece("R1", "bar", 1310),))


def planned(lengths: list[float], sawn: tuple[Sawn, ...] = (), book: Book = BOOK) -> CutPlan:
    cuts = tuple(Cut(f"U{place}", number(length, "mm"), "upright") for place, length in enumerate(lengths))
    amount = number(sum(lengths), "mm")
    (plan,) = plans((Line(BAR, amount, (Need(amount, "frames", "a test", item="bar", cuts=cuts),)),), book, sawn=sawn)
    return plan


def sawn_of(plan: CutPlan, row: int, places: tuple[int, ...]) -> tuple[Sawn, ...]:
    assert isinstance(plan.plan, BarPlan)
    cut = plan.plan.cuts[row]
    source, long = plan.sources[cut.bar], plan.plan.stock[cut.bar].length
    name, code = (source.key, "") if isinstance(source, RackPiece) else ("N1", source.code)
    return tuple(
        Sawn(item="bar", mark=plan.cuts[one].mark, long=Entry(plan.plan.pieces[one].length), bar=name, bar_long=Entry(long), code=code)
        for one in places
    )


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(150, 2900).map(float), min_size=2, max_size=8), st.data())
def test_what_is_cut_stays_and_every_piece_is_cut_once(lengths: list[float], data: st.DataObject) -> None:
    before = planned(lengths)
    assert isinstance(before.plan, BarPlan)
    row = data.draw(st.integers(0, len(before.plan.cuts) - 1))
    some = before.plan.cuts[row].pieces[: data.draw(st.integers(1, len(before.plan.cuts[row].pieces)))]
    after = planned(lengths, sawn_of(before, row, some))
    assert isinstance(after.plan, BarPlan)
    first = after.plan.cuts[0]
    assert first.pieces[: len(some)] == some
    assert after.plan.stock[first.bar].length == before.plan.stock[before.plan.cuts[row].bar].length
    assert sorted(one for cut in after.plan.cuts for one in cut.pieces) == list(range(len(lengths)))
    for cut in after.plan.cuts:
        assert sum(lengths[one] for one in cut.pieces) + 3 * (len(cut.pieces) - 1) <= after.plan.stock[cut.bar].length + 1e-6
    assert after.plan.cost_pence == sum(after.plan.stock[cut.bar].cost_pence for cut in after.plan.cuts)
    assert sum(after.plan.stock[cut.bar].name == "R1" for cut in after.plan.cuts) <= 1


def test_the_rest_of_a_bar_that_is_gone_is_not_cut_again() -> None:
    before = planned([1000, 900])
    (one,) = sawn_of(before, 0, before.plan.cuts[0].pieces[:1])  # type: ignore[union-attr]
    kept, gone = planned([1000, 900, 150], (one,)), planned([1000, 900, 150], (replace(one, rest_gone=True),))
    assert isinstance(kept.plan, BarPlan)
    assert isinstance(gone.plan, BarPlan)
    assert len(kept.plan.cuts[0].pieces) > 1
    assert (len(gone.plan.cuts[0].pieces), gone.plan.cuts[0].remainder) == (1, 0.0)


def test_a_piece_off_the_rack_and_one_no_longer_wanted_do_no_harm() -> None:
    one = Sawn(item="bar", mark="U9", long=Entry(1000), bar="R1", bar_long=Entry(1310))
    plan = planned([1200], (one,), replace(BOOK, rack=()))
    assert isinstance(plan.plan, BarPlan)
    assert plan.begun == ("R1",)
    assert plan.plan.cuts[0].pieces == ()
    assert planned([1200], (Sawn(item="bar"),)).begun == ()


def test_what_is_cut_as_planned_moves_nothing() -> None:
    lengths = [1100.0, 900.0, 800.0, 2000.0]
    cuts = tuple(Cut(f"U{place}", number(length, "mm"), "upright") for place, length in enumerate(lengths))
    amount = number(sum(lengths), "mm")
    lines = (Line(BAR, amount, (Need(amount, "frames", "a test", item="bar", cuts=cuts),)),)
    (before,) = plans(lines, BOOK)
    assert isinstance(before.plan, BarPlan)
    last = len(before.plan.cuts) - 1
    sawn = sawn_of(before, last, before.plan.cuts[last].pieces[-1:])
    (after,) = plans(lines, BOOK, sawn=sawn)
    assert isinstance(after.plan, BarPlan)
    assert {frozenset(cut.pieces) for cut in after.plan.cuts} == {frozenset(cut.pieces) for cut in before.plan.cuts}
    assert len(after.begun) == 1
    assert after.done == {sawn[0].mark}
