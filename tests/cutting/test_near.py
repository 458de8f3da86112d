"""A plan that stays near one before: never dearer than the first, as it was where the pieces are the same, and sound always."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.cutting.checker import faults_of_bars
from tundish.cutting.bars import plan_bars
from tundish.cutting.near import nearer
from tundish.cutting.plan import Bar, BarPlan, Effort, Piece, Sheet, SheetPlan
from tundish.cutting.sheets import plan_sheets

STOCK = (Bar(1000, 410), Bar(2000, 700), Bar(3000, 1010), Bar(900, 0, 1, "R1", offcut=True))
LENGTHS = st.lists(st.integers(200, 2600), min_size=1, max_size=12)


def planned(lengths: list[int], effort: Effort = Effort.QUICK, stock: tuple[Bar, ...] = STOCK) -> BarPlan:
    return plan_bars([Piece("", float(each)) for each in lengths], stock, 2.0, 300.0, effort)


def look(pieces: tuple[Piece, ...], stock: tuple[Bar, ...]) -> BarPlan:
    return plan_bars(pieces, stock, 2.0, 300.0, Effort.QUICK)


def near(first: BarPlan, before: BarPlan) -> BarPlan:
    made = nearer(first, before, look)
    assert isinstance(made, BarPlan)
    return made


@settings(deadline=None, max_examples=60)
@given(LENGTHS, st.randoms(use_true_random=False))
def test_it_is_sound_and_no_dearer_than_the_first(lengths: list[int], chance: object) -> None:
    before = planned(lengths, Effort.BEST)
    moved = [each + chance.randint(-60, 60) for each in lengths]  # type: ignore[attr-defined]  # it is a random.Random
    first = planned(moved)
    made = near(first, before)
    assert faults_of_bars(made) == []
    assert made.pieces == first.pieces
    assert made.cost_pence <= first.cost_pence


@settings(deadline=None, max_examples=30)
@given(LENGTHS)
def test_the_same_pieces_are_cut_as_they_were(lengths: list[int]) -> None:
    before = planned(lengths, Effort.BEST)
    assert near(planned(lengths), before) == before


def two_to_a_bar() -> tuple[BarPlan, BarPlan]:
    """A better plan than the first, which puts every piece on a bar of its own."""
    pieces = tuple(Piece("", each) for each in (900.0, 800.0, 1000.0, 700.0))
    before = planned([900, 800, 1000, 700], stock=(Bar(2000, 700),))
    assert before.cost_pence == 1400
    dear = planned([1990, 1990, 1990, 1990], stock=(Bar(2000, 700),))
    return before, replace(dear, pieces=pieces, bound_pence=700)


def test_pieces_a_little_longer_stay_on_their_bars() -> None:
    before, first = two_to_a_bar()
    first = replace(first, pieces=tuple(replace(each, length=each.length + 10) for each in first.pieces))
    made = near(first, before)
    assert made.cost_pence == 1400
    assert [sorted(cut.pieces) for cut in made.cuts] == [sorted(cut.pieces) for cut in before.cuts]
    assert faults_of_bars(made) == []


def test_what_fits_no_more_where_it_was_is_planned_round_the_rest() -> None:
    before, first = two_to_a_bar()
    longer = next(cut.pieces[0] for cut in before.cuts)
    first = replace(first, pieces=tuple(replace(each, length=1900.0) if at == longer else each for at, each in enumerate(first.pieces)))
    made = near(first, before)
    assert made.cost_pence == 2100
    assert faults_of_bars(made) == []


@pytest.mark.parametrize(
    "change",
    [
        lambda before: None,
        lambda before: replace(before, kerf=3.0),
        lambda before: replace(before, stock=(*before.stock, Bar(5000, 1))),
        lambda before: replace(before, cost_pence=99_999),
        lambda before: replace(before, pieces=before.pieces[1:]),
    ],
    ids=["nothing", "another saw", "another stock", "dearer", "fewer pieces"],
)
def test_of_another_question_the_first_stands(change: object) -> None:
    before, first = two_to_a_bar()
    assert nearer(first, change(before), look) is first  # type: ignore[operator]  # each is a function of a plan


def test_sheets_are_cut_as_they_were_for_the_same_pieces_alone() -> None:
    stock = (Sheet(1200, 600, 900),)
    pieces = (Piece("", 500.0, width=400.0), Piece("", 600.0, width=500.0))

    def sheets(*given: Piece) -> SheetPlan:
        return plan_sheets(given, stock, 3.0, 0.0, Effort.QUICK)

    before, other = replace(sheets(*pieces), bound_pence=1), sheets(pieces[0], replace(pieces[1], length=640.0))
    assert nearer(sheets(*pieces), before, look) is before
    assert nearer(other, replace(before, cost_pence=1), look) is other
