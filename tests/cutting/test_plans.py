"""The cut plans of a job: which lines are cut, from what, and what cannot be."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from tundish.catalogue.book import Book, RuleFigure
from tundish.catalogue.item import Item, Offer, RackPiece, Supplier
from tundish.cutting.plan import BarPlan, Effort, SheetPlan
from tundish.cutting.plans import CutPlan, plans
from tundish.cutting.sawn import Sawn
from tundish.field import Entry
from tundish.figure import Figure, between, number
from tundish.rules.rule import Cut, Need
from tundish.takeoff.line import Line

STRUT = Item("strut", "Strut", "strut", "Pre-wall", "mm", {})
BOARD = Item("board", "Board", "board", "Boards", "each", {})
SCREW = Item("screw", "Screw", "screw", "Fixings", "each", {})


def rule_figure(key: str, value: float) -> RuleFigure:
    return RuleFigure(key, value, "mm", key, "a test", "2026-01-01", value)


FIGURES = {
    key: rule_figure(key, value)
    for key, value in {"cutting.kerf": 2, "cutting.sheet_kerf": 3, "cutting.keep": 300, "cutting.rack_worth": 0}.items()
}


def bar(length: float, price: str) -> Offer:
    return Offer("strut", "a", f"strut-{length:g}-{price}", length, Decimal(price), "2026-01-01", length)


def sheet(length: float, width: float, price: str) -> Offer:
    return Offer("board", "a", f"board-{length:g}", 1, Decimal(price), "2026-01-01", length, width)


def cut(length: Figure | float, width: float | None = None) -> Cut:
    whole = length if isinstance(length, Figure) else number(length, "mm")
    return Cut("A1", whole, "piece", width=None if width is None else number(width, "mm"))


def line(item: Item, *cuts: Cut) -> Line:
    return Line(item, number(1, item.unit), (Need(number(1, item.unit), "frames", "test", item=item.code, cuts=cuts),))


def planned(
    given: Line, *offers: Offer, rack: tuple[RackPiece, ...] = (), effort: Effort = Effort.QUICK, never: frozenset[str] = frozenset()
) -> CutPlan:
    suppliers = {"a": Supplier("a", "A", "", "", "", Decimal(0), Decimal(0), 1)}
    book = Book({}, {}, {}, suppliers, {given.item.code: offers}, FIGURES, rack=rack, never=never)
    (plan,) = plans((given, line(SCREW)), book, effort)
    return plan


def test_only_lines_with_pieces_are_planned() -> None:
    assert plans((line(SCREW),), Book({}, {}, {}, {}, {}, {})) == ()


@pytest.mark.parametrize("effort", list(Effort))
def test_bars_are_cut_with_the_saws_own_width(effort: Effort) -> None:
    # 4 × 500 mm and 3 cuts of 2 mm are 2006 mm: one bar of 2 m is too short by them, with or without the last cut.
    plan = planned(line(STRUT, *[cut(500)] * 4), bar(2000, "8.90"), bar(3000, "11.80"), effort=effort)
    assert isinstance(plan.plan, BarPlan)
    assert [plan.sources[one.bar] for one in plan.plan.cuts] == [plan.sources[1]]
    assert plan.plan.cost_pence == 1180


def test_the_rack_comes_before_the_shop() -> None:
    plan = planned(line(STRUT, cut(700)), bar(2000, "8.90"), rack=(RackPiece("R1", "strut", 900), RackPiece("R2", "board", 900)))
    assert isinstance(plan.plan, BarPlan)
    assert [plan.sources[one.bar] for one in plan.plan.cuts] == [RackPiece("R1", "strut", 900)]
    assert plan.plan.cost_pence == 0


def test_of_one_size_the_cheapest_offer_is_cut_and_others_are_left_out() -> None:
    loose = Offer("strut", "a", "by-the-metre", 1000, Decimal("0.01"), "2026-01-01")
    plan = planned(line(STRUT, cut(700)), bar(2000, "9.90"), bar(2000, "8.90"), bar(2000, "9.00"), loose)
    assert plan.sources == (bar(2000, "8.90"),)


def test_no_bar_is_cut_that_is_never_bought_unless_there_is_no_other() -> None:
    cheap, dear = bar(2000, "8.90"), bar(3000, "90.00")
    assert planned(line(STRUT, cut(700)), cheap, dear, never=frozenset({cheap.key})).sources == (dear,)
    assert planned(line(STRUT, cut(700)), cheap, dear, never=frozenset({"a"})).sources == (cheap, dear), "how it would be cut is still told"


def test_sheets_are_cut_from_sheets_in_the_rack_too() -> None:
    rack = (RackPiece("R1", "board", 900), RackPiece("R2", "board", 900, 700))
    plan = planned(line(BOARD, cut(800, 600), cut(1100, 700)), sheet(1200, 800, "24.00"), rack=rack)
    assert isinstance(plan.plan, SheetPlan)
    assert plan.sources == (rack[1], sheet(1200, 800, "24.00"))
    assert plan.plan.used() == (1, 1)


def test_a_piece_that_may_still_change_is_planned_at_its_longest() -> None:
    open_length = between(950, 900, 1010, "mm", "wall")
    plan = planned(line(STRUT, cut(open_length)), bar(1000, "5.00"), bar(2000, "8.90"))
    assert plan.plan.pieces[0].length == 1010
    assert plan.plan.pieces[0].tbc


def test_what_no_stock_is_long_enough_for_is_named() -> None:
    plan = planned(line(STRUT, cut(700), cut(2500)), bar(2000, "8.90"))
    assert plan.too_long == (plan.cuts[1],)


def test_what_nobody_sells_is_named() -> None:
    plan = planned(line(STRUT, cut(700)))
    assert plan.too_long == plan.cuts


def test_pieces_without_a_size_are_left_out() -> None:
    assert planned(line(STRUT, cut(0), cut(700)), bar(2000, "8.90")).cuts == (cut(700),)
    assert planned(line(BOARD, cut(700, 0)), sheet(1200, 800, "24.00")).cuts == ()


def test_what_is_asked_for_by_length_is_bought_with_what_is_cut() -> None:
    by_length = Need(number(4500, "mm"), "frames", "spare", item="strut")
    given = line(STRUT, cut(700))
    plan = planned(Line(STRUT, given.amount, (*given.needs, by_length)), bar(2000, "8.90"))
    assert [(one.mark, one.length.value) for one in plan.cuts] == [("A1", 700), ("L1", 2000), ("L2", 2000), ("L3", 500)]
    assert plan.plan.used() == (3,)


def test_a_better_plan_found_before_does_not_change_the_quick_answer() -> None:
    """Whatever was asked meanwhile, the same question asked in the same way has the same answer."""
    given = line(STRUT, *[cut(length) for length in (1010, 1010, 990, 990, 760, 640, 620, 610, 480, 330, 250)])
    book = Book({}, {}, {}, {}, {"strut": (bar(2000, "8.90"), bar(3000, "12.80"))}, FIGURES)
    first = plans((given,), book, Effort.QUICK)
    best, proof = plans((given,), book, Effort.BEST), plans((given,), book, Effort.PROOF)
    assert best[0].plan.cost_pence <= first[0].plan.cost_pence
    assert plans((given,), book, Effort.QUICK) == first
    assert plans((given,), book, Effort.BEST) == best
    assert plans((given,), book, Effort.PROOF) == proof


def test_once_anything_is_cut_what_was_found_stands_for_what_is_not() -> None:
    """Bars are bought by the better plan: a mark on another material does not undo it, nor does what goes on the rack."""
    given = line(STRUT, *[cut(length) for length in (1444, 1444, 1157, 1154, 180, 180, 177, 135, 130)])
    offers = {"strut": (bar(2000, "8.90"), bar(3000, "11.80"), bar(6000, "22.40"))}
    book = Book({}, {}, {}, {}, offers, FIGURES)
    quick, best = plans((given,), book, Effort.QUICK), plans((given,), book, Effort.BEST)
    assert best[0].plan.cost_pence < quick[0].plan.cost_pence
    elsewhere = (Sawn(item="pipe", mark="P1", long=Entry(130.0), bar="N1", bar_long=Entry(2000.0)),)
    assert plans((given,), book, Effort.QUICK, elsewhere) == best
    after = replace(book, rack=(RackPiece("R9", "pipe", 900),))
    assert plans((given,), after, Effort.QUICK, elsewhere) == best


MANY = (1444, 1444, 1157, 1154, 180, 180, 177, 135, 130)


def marked(before: CutPlan, bar: int) -> tuple[Sawn, ...]:
    """The first piece of a bar as it is kept once it is cut."""
    assert isinstance(before.plan, BarPlan)
    cut, source = before.cuts[before.plan.cuts[bar].pieces[0]], before.sources[before.plan.cuts[bar].bar]
    assert isinstance(source, Offer)
    return (Sawn(item="strut", mark=cut.mark, long=Entry(cut.length.value), bar="N1", bar_long=Entry(source.length), code=source.code),)


def bars_of(plan: CutPlan) -> list[tuple[int, tuple[int, ...]]]:
    assert isinstance(plan.plan, BarPlan)
    return sorted((each.bar, tuple(sorted(each.pieces))) for each in plan.plan.cuts)


def test_a_better_plan_that_was_found_is_not_taken_with_the_piece_that_is_marked() -> None:
    """It is offered in the window: what is seen stays until it is taken."""
    given = line(STRUT, *(Cut(f"U{place}", number(length, "mm"), "upright") for place, length in enumerate(MANY)))
    book = Book({}, {}, {}, {}, {"strut": (bar(2000, "8.90"), bar(3000, "11.80"), bar(6000, "22.40"))}, FIGURES)
    shown, best = plans((given,), book, Effort.QUICK), plans((given,), book, Effort.BEST)
    assert best[0].plan.cost_pence < shown[0].plan.cost_pence
    for place in range(len(shown[0].plan.cuts)):
        sawn = marked(shown[0], place)
        (after,) = plans((given,), book, Effort.QUICK, sawn, near=shown)
        assert (bars_of(after), after.done) == (bars_of(shown[0]), frozenset({sawn[0].mark}))
        assert plans((given,), book, Effort.QUICK, sawn, near=(after,)) == (after,), "nor with the next step"
    elsewhere = (Sawn(item="pipe", mark="P1", long=Entry(130.0), bar="N1", bar_long=Entry(2000.0)),)
    assert plans((given,), book, Effort.QUICK, elsewhere, near=shown) == shown
    assert plans((given,), book, Effort.QUICK, elsewhere, near=best) == best, "one that was taken stays"
    dearer = replace(book, offers={"strut": (bar(3000, "12.80"),)})
    (other,) = plans((given,), dearer, Effort.QUICK, elsewhere, near=shown)
    assert {source.length for source in other.sources} == {3000}, "of other stock it is planned anew"


def test_a_plan_that_was_begun_otherwise_than_it_shows_is_planned_anew() -> None:
    given = line(STRUT, *(Cut(f"U{place}", number(length, "mm"), "upright") for place, length in enumerate(MANY)))
    book = Book({}, {}, {}, {}, {"strut": (bar(2000, "8.90"), bar(6000, "22.40"))}, FIGURES)
    shown = plans((given,), book, Effort.QUICK)
    odd = (Sawn(item="strut", mark="U0", long=Entry(1444.0), bar="N1", bar_long=Entry(5000.0)),)
    (after,) = plans((given,), book, Effort.QUICK, odd, near=shown)
    assert after.done == {"U0"}


def by_the_metre(price: str, least: int = 1) -> Offer:
    return Offer("strut", "a", "strut-by-the-metre", 1000, Decimal(price), "2026-01-01", 6000, least=least)


@pytest.mark.parametrize("effort", list(Effort))
def test_what_a_supplier_cuts_to_length_is_taken_where_that_is_cheaper(effort: Effort) -> None:
    """By hand: 2 x 1,600 from two bars of 2 m cost 17.80; cut to length 2 x 1.6 x 5.00 = 16.00."""
    given = line(STRUT, cut(1600), cut(1600))
    plan = planned(given, bar(2000, "8.90"), by_the_metre("5.00"), effort=effort)
    assert plan.plan.cost_pence == 1600
    assert isinstance(plan.plan, BarPlan)
    assert [(plan.sources[one.bar].length, one.remainder) for one in plan.plan.cuts] == [(1600, 0)] * 2
    assert planned(given, bar(2000, "8.90"), by_the_metre("6.00"), effort=effort).plan.cost_pence == 1780


def test_a_length_between_whole_millimetres_is_ordered_at_the_next_and_a_short_one_pays_the_least() -> None:
    plan = planned(line(STRUT, cut(700.4)), by_the_metre("5.00", least=2))
    assert [(each.length, each.price) for each in plan.sources if isinstance(each, Offer)] == [(701, Decimal("10.00"))]
    assert not plan.plan.unplaced


def test_what_is_longer_than_a_supplier_cuts_is_said() -> None:
    assert planned(line(STRUT, cut(6500)), by_the_metre("5.00")).plan.unplaced == (0,)


def of_worth(share: float) -> dict[str, RuleFigure]:
    return FIGURES | {"cutting.rack_worth": replace(rule_figure("cutting.rack_worth", share), unit="%")}


@pytest.mark.parametrize(("share", "pence", "new"), [(0, 0, 0), (50, 438, 0), (100, 800, 1)])
def test_the_rack_is_free_or_costs_a_job_its_share_of_new(share: float, pence: int, new: int) -> None:
    """By hand: 2,190 of rack at 8.00 for 2,000 is worth 8.76: half of it is 4.38; at its whole worth a new bar of 8.00 is cheaper."""
    rack = (RackPiece("R1", "strut", 2190),)
    book = Book({}, {}, {}, {}, {"strut": (bar(2000, "8.00"),)}, of_worth(share), rack=rack)
    (plan,) = plans((line(STRUT, cut(1700)),), book)
    assert plan.plan.cost_pence == pence
    assert sum(isinstance(plan.sources[place], Offer) * count for place, count in enumerate(plan.plan.used())) == new
