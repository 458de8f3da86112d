from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from tests.cutting.checker import faults_of_sheets
from tests.cutting.trade_like import dice_of, sheet_job
from tundish.cutting import sheets
from tundish.cutting.boards import Layout, Spot, as_nesting
from tundish.cutting.plan import BadCutError, Effort, Piece, Place, Rect, Sheet, SheetPlan
from tundish.cutting.sheets import plan_sheets

SIDES = some.integers(10, 120)
PIECES = some.lists(
    some.builds(Piece, some.just("P"), SIDES, some.integers(0, 3), width=SIDES, turn=some.booleans()),
    max_size=5,
)
RACK = some.builds(Sheet, SIDES, SIDES, some.just(0), some.integers(0, 2), some.just("rack"), offcut=some.just(True))
PRICES = some.integers(1, 9).map(lambda tens: tens * 10)
BOUGHT = some.builds(Sheet, some.integers(60, 140), some.integers(60, 140), PRICES, some.none() | some.integers(0, 3))
STOCK = some.lists(RACK | BOUGHT, max_size=3)


def checked(
    pieces: Sequence[Piece], stock: Sequence[Sheet], kerf: float = 0.0, trim: float = 0.0, effort: Effort = Effort.BEST
) -> SheetPlan:
    plan = plan_sheets(pieces, stock, kerf, trim, effort)
    assert not faults_of_sheets(plan)
    return plan


@settings(max_examples=100)
@given(PIECES, STOCK, some.sampled_from((0.0, 1.0, 2.5)), some.sampled_from((0.0, 5.0, 40.0)))
def test_any_quick_plan_can_be_sawn(pieces: list[Piece], stock: list[Sheet], kerf: float, trim: float) -> None:
    checked(pieces, stock, kerf, trim, Effort.QUICK)


@settings(max_examples=25)
@given(PIECES, STOCK, some.sampled_from((0.0, 2.5)), some.sampled_from((0.0, 5.0)))
def test_any_plan_can_be_sawn(pieces: list[Piece], stock: list[Sheet], kerf: float, trim: float) -> None:
    plan = checked(pieces, stock, kerf, trim)
    quick = plan_sheets(pieces, stock, kerf, trim, Effort.QUICK)
    if not quick.unplaced:
        assert not plan.unplaced
        assert plan.cost_pence <= quick.cost_pence


@settings(max_examples=30)
@given(some.lists(some.tuples(some.integers(2, 9), some.integers(2, 9)), min_size=1, max_size=5), some.booleans())
def test_a_plan_is_a_sheet_over_at_most_and_proven_only_when_it_is_best(sizes: list[tuple[int, int]], turn: bool) -> None:
    plan = checked([Piece("P", long, width=wide, turn=turn) for long, wide in sizes], [Sheet(12, 10, 100)])
    least = least_sheets(tuple(sorted(sizes)), turn)
    assert plan.bound_pence <= 100 * least
    assert plan.cost_pence <= 100 * (least + 1)
    assert not plan.proven or plan.cost_pence == 100 * least


@lru_cache(maxsize=10_000)
def least_sheets(sizes: tuple[tuple[int, int], ...], turn: bool) -> int:
    """Every way to deal the pieces out to sheets of 12 x 10, each tried with every cut."""
    if not sizes:
        return 0
    *others, last = sizes
    best = len(sizes)
    for bits in range(1 << len(others)):
        mine = (*(size for place, size in enumerate(others) if bits >> place & 1), last)
        rest = tuple(size for place, size in enumerate(others) if not bits >> place & 1)
        if can_be_cut(12, 10, mine, turn):
            best = min(best, 1 + least_sheets(rest, turn))
    return best


@lru_cache(maxsize=200_000)
def can_be_cut(length: int, width: int, sizes: tuple[tuple[int, int], ...], turn: bool) -> bool:
    if not sizes:
        return True
    if sum(long * wide for long, wide in sizes) > length * width:
        return False
    if len(sizes) == 1:
        long, wide = sizes[0]
        return (long <= length and wide <= width) or (turn and wide <= length and long <= width)
    for bits in range(1, (1 << len(sizes)) - 1):
        mine = tuple(size for place, size in enumerate(sizes) if bits >> place & 1)
        rest = tuple(size for place, size in enumerate(sizes) if not bits >> place & 1)
        if any(can_be_cut(cut, width, mine, turn) and can_be_cut(length - cut, width, rest, turn) for cut in range(1, length)):
            return True
        if any(can_be_cut(length, cut, mine, turn) and can_be_cut(length, width - cut, rest, turn) for cut in range(1, width)):
            return True
    return False


@pytest.mark.parametrize("seed", range(6))
def test_a_room_or_two_costs_little_over_the_bound(seed: int) -> None:
    pieces, stock, kerf, trim = sheet_job(seed, 16 + 4 * seed)
    plan = checked(pieces, stock, kerf, trim)
    quick = checked(pieces, stock, kerf, trim, Effort.QUICK)
    assert plan.bound_pence <= plan.cost_pence <= quick.cost_pence
    assert plan.cost_pence <= plan.bound_pence + 2 * stock[0].cost_pence


def test_the_choice_among_all_sheets_filled_beats_each_attempt() -> None:
    dice = dice_of(12)
    sizes = [(dice.randrange(300, 2200, 5), dice.randrange(80, 750, 5)) for _ in range(24)]
    pieces = [Piece(f"B{mark}", long, dice.randint(1, 3), width=wide) for mark, (long, wide) in enumerate(sizes)]
    stock = [Sheet(2400, 1200, 1450), Sheet(1800, 900, 860), Sheet(1200, 600, 410)]
    plan = checked(pieces, stock)
    assert plan.cost_pence < checked(pieces, stock, effort=Effort.QUICK).cost_pence
    assert plan.cost_pence <= plan.bound_pence * 1.2


@pytest.mark.parametrize("effort", Effort)
@pytest.mark.parametrize("seed", range(2))
def test_the_order_of_pieces_and_stock_changes_no_cost(seed: int, effort: Effort) -> None:
    pieces, stock, kerf, trim = sheet_job(seed, 14)
    plan = plan_sheets(pieces, stock, kerf, trim, effort)
    dice = dice_of(seed)
    dice.shuffle(pieces)
    dice.shuffle(stock)
    other = checked(pieces, stock, kerf, trim, effort)
    assert (other.cost_pence, other.bound_pence) == (plan.cost_pence, plan.bound_pence)


def test_the_same_question_has_the_same_answer() -> None:
    asked = sheet_job(3, 18)
    assert plan_sheets(*asked) == plan_sheets(*asked)


def test_one_piece_lies_in_the_corner_and_the_larger_remainder_is_whole() -> None:
    plan = checked([Piece("A", 1000, width=600, turn=False)], [Sheet(2400, 1200, 1450)])
    assert plan.cuts[0].places == (Place(0, 0.0, 0.0, 1000, 600, turned=False),)
    assert plan.cuts[0].remainders == (Rect(0.0, 600.0, 1000.0, 600.0), Rect(1000.0, 0.0, 1400.0, 1200.0))
    assert plan.kept() == (Sheet(1400, 1200, 0, 1, offcut=True), Sheet(1000, 600, 0, 1, offcut=True))
    assert plan.kept(601) == (Sheet(1400, 1200, 0, 1, offcut=True),)
    assert (plan.cut_area_m2, plan.used()) == (0.6, (1,))


def test_a_piece_is_turned_where_that_leaves_a_larger_remainder() -> None:
    plan = checked([Piece("A", 1000, width=600)], [Sheet(2400, 1200, 1450)])
    assert plan.kept() == (Sheet(1800, 1200, 0, 1, offcut=True), Sheet(600, 200, 0, 1, offcut=True))


def test_kerf_and_trim_are_lost_from_every_cut() -> None:
    sheet = Sheet(1013, 510, 100)
    assert len(checked([Piece("A", 500, 2, width=500)], [sheet], kerf=3.0, trim=5.0).cuts) == 1
    assert len(checked([Piece("A", 500.1, 2, width=500)], [sheet], kerf=3.0, trim=5.0).cuts) == 2
    assert checked([Piece("A", 500, width=500)], [sheet], kerf=3.0, trim=5.0).cuts[0].remainders == (Rect(508, 5, 500, 500),)


def test_a_piece_with_grain_is_not_turned() -> None:
    stock = [Sheet(2400, 600, 900)]
    assert checked([Piece("A", 500, width=1000)], stock).cuts[0].places[0].turned
    assert checked([Piece("A", 500, width=1000, turn=False)], stock).unplaced == (0,)


def test_the_rack_goes_before_the_shop_and_small_pieces_of_it_first() -> None:
    rack = [Sheet(1200, 1200, 0, 1, "large", offcut=True), Sheet(650, 420, 0, 1, "small", offcut=True)]
    plan = checked([Piece("A", 600, width=400)], [Sheet(2400, 1200, 1450), *rack])
    assert plan.used() == (0, 0, 1)


def test_a_piece_larger_than_any_sheet_is_left_over() -> None:
    plan = checked([Piece("A", 2500, 2, width=100), Piece("B", 500, width=500)], [Sheet(2400, 1200, 1450)])
    assert plan.unplaced == (0, 0)
    assert (plan.cost_pence, plan.proven) == (1450, True)


@pytest.mark.parametrize("effort", Effort)
def test_pieces_are_left_over_when_the_stock_runs_out(effort: Effort) -> None:
    plan = checked([Piece("A", 1000, 3, width=600)], [Sheet(1000, 600, 500, 1), Sheet(1100, 650, 0, 1, offcut=True)], effort=effort)
    assert plan.unplaced == (0,)
    assert (plan.cost_pence, plan.proven) == (500, False)


@pytest.mark.parametrize(("pieces", "stock"), [((), ()), ((), (Sheet(9, 9, 1),)), ((Piece("A", 5, 0, width=5),), (Sheet(9, 9, 1),))])
def test_nothing_to_cut_costs_nothing(pieces: tuple[Piece, ...], stock: tuple[Sheet, ...]) -> None:
    plan = checked(pieces, stock)
    assert (plan.cuts, plan.cost_pence, plan.proven) == ((), 0, True)


def test_no_stock_leaves_everything_over() -> None:
    assert checked([Piece("A", 5, 2, width=5)], []).unplaced == (0, 0)


def test_a_sheet_as_large_as_a_field_is_no_trouble() -> None:
    assert checked([Piece("A", 1000.5, 3, width=600)], [Sheet(9e7, 9e7, 100)]).cost_pence == 100


def test_a_piece_of_sheet_needs_a_width() -> None:
    with pytest.raises(BadCutError, match="piece A: a piece of sheet needs a width"):
        plan_sheets([Piece("A", 500)], [Sheet(2400, 1200, 1450)])


def test_a_trim_is_a_length() -> None:
    with pytest.raises(BadCutError, match="trim should be nought or more"):
        plan_sheets([], [], trim=-1.0)


def test_what_is_cut_over_the_asked_is_left_over() -> None:
    nest, _ = as_nesting([Piece("A", 900, 3, width=600)], [Sheet(2000, 600, 500)], 0.0, 0.0)
    full = Layout(0, (2,), (Spot(0, 0, 0, 9000, 6000), Spot(0, 9000, 0, 9000, 6000)), (Spot(-1, 18000, 0, 2000, 6000),), 0.0)
    first, last = sheets._trimmed(nest, [full] * 3)
    assert first.counts == (2,)
    assert last.counts == (1,)
    assert [(rest.x, rest.length) for rest in last.rests] == [(18000, 2000), (9000, 9000)]
    assert last.gain > first.gain


def test_a_big_list_of_three_sizes_is_planned_in_large_steps_first_and_better_than_by_rule_of_thumb() -> None:
    pieces = tuple(Piece(f"P{place}", 211.7 + 83.3 * place, 42, width=157.9 + 41.1 * (place * 7 % 11)) for place in range(10))
    stock = (Sheet(2440, 1220, 3000), Sheet(1830, 915, 1800), Sheet(1220, 610, 900))
    calls = iter(range(10**9))
    quick = plan_sheets(pieces, stock, 3.0, 5.0, Effort.QUICK)
    plan = plan_sheets(pieces, stock, 3.0, 5.0, Effort.PROOF, lambda: next(calls) > 60)
    assert not faults_of_sheets(plan)
    assert not plan.unplaced
    assert plan.bound_pence <= plan.cost_pence <= quick.cost_pence


def test_a_big_list_is_rounded_again_and_again_until_nothing_is_gained() -> None:
    pieces = tuple(Piece(f"P{place}", 30 + 7 * place, 45, width=20 + 5 * (place * 3 % 7)) for place in range(10))
    plan = plan_sheets(pieces, (Sheet(100, 70, 100), Sheet(130, 90, 160)), effort=Effort.PROOF)
    assert not faults_of_sheets(plan)
    assert plan.bound_pence <= plan.cost_pence <= 1.05 * plan.bound_pence
