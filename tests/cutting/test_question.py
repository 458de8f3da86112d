"""Cut lists asked for outside any job: what is wrong is said by row and column, and every answer can be sawn."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from tests.cutting.instance_check import faults
from tundish.cutting.bars import plan_bars
from tundish.cutting.own_list import planned
from tundish.cutting.plan import Effort
from tundish.cutting.question import BadQuestionError, answer, question

GOOD: dict[str, Any] = {
    "kind": "1d",
    "kerf": 2,
    "stock": [{"length": 3000, "cost": 900, "qty": None}],
    "pieces": [{"length": 700, "qty": 3}],
}
ROLLS = ((1380, 22), (1520, 25), (1560, 12), (1710, 14), (1820, 18), (1880, 18), (1930, 20))
MORE_ROLLS = ((2000, 10), (2050, 12), (2100, 14), (2140, 16), (2150, 18), (2200, 20))


def with_(where: str, place: int | None, **changed: object) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(json.dumps(GOOD))
    (made if place is None else made[where][place]).update(changed)
    return made


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (with_("pieces", 0, length=0), "pieces row 1, length: should be more than nought, not 0"),
        (with_("pieces", 0, length=-5), "pieces row 1, length: should be more than nought, not -5"),
        (with_("pieces", 0, length=float("nan")), "pieces row 1, length: should be more than nought, not nan"),
        (with_("pieces", 0, length=1e9), "pieces row 1, length: 1e.09 mm is longer than anything that is sawn; is the unit right?"),
        (with_("pieces", 0, length="700"), "pieces row 1, length: should be a number of mm, not '700'"),
        (with_("pieces", 0, length=1), "pieces row 1, length: 1 is narrower than the saw's kerf, 2"),
        (with_("pieces", 0, qty=1.5), "pieces row 1, qty: should be a whole number"),
        (with_("pieces", 0, qty=10**9), "pieces row 1, qty: should be a whole number from 0 to 10000"),
        (with_("stock", 0, cost=-1), "stock row 1, cost: should be a whole number"),
        (with_("stock", 0, squaring=3000), "stock row 1, length: nothing is left after trim and squaring the end"),
        (with_("", None, kerf=-1), "the saw, kerf: should be nought or more"),
        (with_("", None, pieces=None), "pieces should be a list"),
        (with_("", None, kind="3d"), "kind should be 1d or 2d, not '3d'"),
        ([], "the list should be an object"),
    ],
)
def test_what_is_wrong_is_named_by_row_and_column(data: object, told: str) -> None:
    with pytest.raises(BadQuestionError, match=told):
        question(data)


def test_many_faults_are_said_up_to_a_page() -> None:
    with pytest.raises(BadQuestionError, match=r"pieces row 1, length[\s\S]*and 10 more"):
        question({**GOOD, "pieces": [{"length": 0}] * 30})


def test_an_offcut_is_as_long_as_it_is_once_its_end_is_square() -> None:
    asked = {**GOOD, "stock": [*GOOD["stock"], {"length": 705, "cost": 0, "qty": 1, "offcut": True, "squaring": 6}]}
    assert question(asked).bars[1].length == 699


SIDE = some.integers(20, 400)
FLAT = some.fixed_dictionaries(
    {
        "kind": some.just("2d"),
        "kerf": some.sampled_from((0, 3)),
        "trim": some.sampled_from((0, 5)),
        "rotate": some.booleans(),
        "stock": some.lists(
            some.fixed_dictionaries(
                {"w": some.integers(411, 600), "h": some.integers(411, 600), "cost": some.integers(1, 9), "qty": some.none()}
            ),
            min_size=1,
            max_size=2,
        ),
        "pieces": some.lists(some.fixed_dictionaries({"w": SIDE, "h": SIDE, "qty": some.integers(1, 3)}), min_size=1, max_size=5),
    }
)


@settings(max_examples=25)
@given(FLAT)
def test_every_proof_is_a_plan_that_can_be_sawn(asked: dict[str, Any]) -> None:
    assert not faults(asked, answer(planned(question(asked))))


@settings(max_examples=5)
@given(FLAT)
def test_a_question_asked_twice_has_one_answer(asked: dict[str, Any]) -> None:
    assert answer(planned(question(asked))) == answer(planned(question(asked)))


@pytest.mark.parametrize("effort", Effort)
def test_told_to_stop_there_is_still_a_plan(effort: Effort) -> None:
    asked = question({**GOOD, "pieces": [{"length": 7 + 13 * place, "qty": 5} for place in range(60)]})
    plan = plan_bars(asked.pieces, asked.bars, asked.kerf, effort=effort, stop=lambda: True)
    assert not plan.unplaced


def test_the_textbook_case_of_paper_rolls_takes_73() -> None:
    """Thirteen widths from rolls of 5,600: the example taught with the method of Gilmore and Gomory (from memory)."""
    pieces = [{"length": length, "qty": count} for length, count in (*ROLLS, *MORE_ROLLS)]
    plan = planned(question({"kind": "1d", "stock": [{"length": 5600, "cost": 1, "qty": None}], "pieces": pieces}))
    assert (plan.cost_pence, plan.proven) == (73, True)


def test_mitres_of_a_bars_piece_are_read_and_more_than_two_told() -> None:
    assert [piece.mitres for piece in question(with_("pieces", 0, mitres=2)).pieces] == [2]
    with pytest.raises(BadQuestionError, match="pieces row 1, mitres: should be a whole number from 0 to 2, not 3"):
        question(with_("pieces", 0, mitres=3))
