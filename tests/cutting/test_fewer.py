from __future__ import annotations

from dataclasses import replace

from hypothesis import example, given, settings
from hypothesis import strategies as some

from tests.cutting.checker import faults_of_sheets
from tests.cutting.trade_like import dice_of, sheet_job
from tundish.cutting.attempts import Plan, attempts, worth_of
from tundish.cutting.boards import Nesting, as_nesting
from tundish.cutting.fewer import with_fewer
from tundish.cutting.plan import Effort, Piece, Sheet
from tundish.cutting.sheets import plan_sheets
from tundish.cutting.until import Share


class Looks:
    """Time that goes by with every look at it, a thousandth at a time."""

    def __init__(self, seconds: float) -> None:
        self._left = seconds

    def __call__(self) -> bool:
        return self.left() <= 0

    def left(self) -> float:
        self._left -= 0.001
        return self._left


def tight(seed: int, pieces: int = 40) -> list[Piece]:
    dice = dice_of(seed)
    return [Piece(f"P{mark}", dice.randint(150, 1000), width=dice.randint(100, 700)) for mark in range(pieces)]


def tried(seed: int) -> tuple[Nesting, Plan]:
    nest, _ = as_nesting(tight(seed), [Sheet(1800, 900, 980)], 3.0, 0.0)
    return nest, min(attempts(nest, 3), key=lambda plan: worth_of(nest, plan))


def test_a_sheet_fewer_is_found_where_attempts_miss_it_and_cuts_the_same_pieces() -> None:
    saved = 0
    for seed in range(6):
        nest, plan = tried(seed)
        fewer = with_fewer(nest, plan, 3_000)
        assert tuple(map(sum, zip(*(layout.counts for layout in fewer), strict=True))) == nest.demand
        saved += len(plan) - len(fewer)
    assert saved >= 3


def test_the_same_run_has_the_same_answer() -> None:
    nest, plan = tried(1)
    assert with_fewer(nest, plan, 500, 3) == with_fewer(nest, plan, 500, 3)


def test_one_sheet_or_no_time_leave_the_plan_as_it_is() -> None:
    nest, plan = tried(2)
    assert with_fewer(nest, plan[:1], 100) == plan[:1]
    assert with_fewer(replace(nest, stop=lambda: True), plan, 100) == plan


def test_what_costs_nothing_is_not_taken_apart_to_save_money() -> None:
    nest, _ = as_nesting([Piece("P", 500, 4, width=500)], [Sheet(1000, 500, 0, 1, offcut=True), Sheet(1100, 500, 900)], 0.0, 0.0)
    plan = min(attempts(nest, 2), key=lambda plan: worth_of(nest, plan))
    assert nest.cost(with_fewer(nest, plan, 50)) == nest.cost(plan) == 900


@settings(max_examples=10)
@given(some.integers(0, 10_000), some.integers(6, 24), some.sampled_from((0.2, 0.6)))
@example(987, 25, 0.6)  # planned in coarse steps: what they were too large by was left out of the remainders
def test_a_plan_made_in_a_set_time_can_be_sawn_and_costs_no_more(seed: int, pieces: int, seconds: float) -> None:
    asked, stock, kerf, trim = sheet_job(seed, pieces)
    plan = plan_sheets(asked, stock, kerf, trim, Effort.PROOF, Looks(seconds))
    assert not faults_of_sheets(plan)
    assert not plan.unplaced
    assert plan.bound_pence <= plan.cost_pence <= plan_sheets(asked, stock, kerf, trim, Effort.QUICK).cost_pence


def test_a_share_of_the_time_ends_before_the_whole() -> None:
    whole = Looks(1.0)
    share = Share(whole, 0.25)
    assert not share()
    looks = next(look for look in range(1000) if share())
    assert 200 < looks < 300
    assert not whole()
