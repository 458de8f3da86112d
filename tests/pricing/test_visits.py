"""Visits: how the programme parts them, what each comes to, and what is charged otherwise by hand."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.catalogue.crew import Person
from tundish.catalogue.load import supplied_book
from tundish.estimate import Estimate, estimate
from tundish.field import Entry, put
from tundish.figure import number
from tundish.pricing.price import Price
from tundish.pricing.programme import AGAIN
from tundish.pricing.terms import Terms, VisitByHand
from tundish.pricing.visits import visit_problems
from tundish.pricing.waits import Wait
from tundish.pricing.work_out import price
from tundish.procurement.purchase import Buying
from tundish.rules.rule import LABOUR, STAGE_NAMES, Need, Stage
from tundish.store.keep import demo_jobs

NOTHING = Buying((), (), ())
ALONE = Terms(labour_rate=Decimal(40), hours_a_day=Entry(8), travel=Decimal(12), parking=Decimal(3))
WORK: tuple[tuple[float, Stage, str], ...] = (
    (8, "frames", ""),
    (8, "boarding", "boarding"),
    (12, "boarding", "tiling"),
    (4, "second fix", ""),
)
"""A day of frames, a day of boards, a day and a half of tiles, half a day of second fix: 32 hours are 4 days on end."""
TILER = Person(name="Tiler", rate=Decimal(30), paid=Decimal(26), tiling="does it", own_way=True)


def cure(hours: float) -> Wait:
    return Wait("Adhesive and grout cure", number(hours, "h"), "tiling", ("second fix",))


def priced(*waits: Wait, again: float = 0.5, **terms: object) -> Price:
    needs = tuple(Need(number(hours, "h"), stage, "hours", role=LABOUR, work=work) for hours, stage, work in WORK)
    return price(needs, NOTHING, replace(ALONE, **terms), waits, (), number(again, "h"))  # type: ignore[arg-type]


def beside(made: Price) -> Decimal:
    return sum((each.amount for each in made.beside if each.kind == "visits"), Decimal(0))


def test_days_on_end_are_one_visit_with_a_journey_each() -> None:
    made = priced()
    (visit,) = made.visits
    assert (visit.days, visit.journeys, visit.again, visit.labour, visit.why) == (4, Decimal(60), 0.0, Decimal(0), "the work begins")
    assert visit.amount == beside(made) == Decimal(60)


def test_a_wait_parts_the_work_and_setting_up_again_is_charged_once() -> None:
    """Tiles end at noon of the fourth day: 24 hours are over on the sixth, so nobody comes on the fifth; half an hour at 40."""
    made = priced(cure(24))
    first, second = made.visits
    assert (first.days, second.days, second.begins, second.why) == (4, 1, "second fix", "after adhesive and grout cure")
    assert (first.again, second.again, second.labour) == (0.0, 0.5, Decimal(20))
    assert beside(made) == first.amount + second.amount == Decimal(60) + Decimal(15) + Decimal(20)
    assert made.programme[-1].work == ((AGAIN, 0.5), (STAGE_NAMES["second fix"], 4.0))
    assert made.hours.value == 32.5
    assert [day.visit for day in made.programme] == [1, 1, 1, 1, 0, 2]


def test_what_is_dry_overnight_parts_nothing() -> None:
    assert [each.days for each in priced(cure(12)).visits] == [5]


def test_no_hour_is_charged_twice() -> None:
    """Parted work costs what work on end does, with the hours to set up again and the journey of one more day."""
    whole, parted = priced(), priced(cure(24))
    assert [each.labour for each in whole.stages] == [each.labour for each in parted.stages]
    assert parted.before_vat - whole.before_vat == Decimal(20) + Decimal(15)
    assert parted.break_even - whole.break_even == Decimal(15)
    assert parted.kept == parted.before_vat - parted.break_even


def test_days_of_others_who_come_by_own_means_are_no_journey_and_part_the_work() -> None:
    """The tiler is there from the third day to the noon of the fourth, when you come to set up and begin; half an hour is left over."""
    made = priced(people=(TILER,))
    assert [(each.days, each.begins, each.why) for each in made.visits] == [
        (2, "frames", "the work begins"),
        (2, "second fix", "after boarding and tiling"),
    ]
    assert [each.again for each in made.visits] == [0.0, 0.5]
    same_van = priced(people=(replace(TILER, own_way=False),))
    assert [each.days for each in same_van.visits] == [4]


def test_who_begins_a_visit_sets_up_for_it() -> None:
    mate = Person(name="Mate", rate=Decimal(20), paid=Decimal(15), second_fix="helps")
    made = priced(cure(24), people=(mate,))
    assert (made.visits[1].labour, made.visits[1].paid) == (Decimal(30), Decimal("7.50"))
    shared = priced(cure(24), people=(replace(mate, second_fix="shares it"),))
    assert (shared.visits[1].labour, shared.visits[1].again) == (Decimal(15), 0.25)


def test_overhead_is_on_setting_up_too() -> None:
    second = priced(cure(24), overhead=Entry(10), overhead_hour=Decimal(2)).visits[1]
    assert second.overhead == Decimal("3.00")
    assert second.amount == Decimal(15) + Decimal(20) + Decimal(3)


def test_a_short_visit_comes_to_its_least() -> None:
    """Four hours at 40, half an hour to set up and a journey are 195 of 250; the long visit is above it anyway."""
    first, second = priced(cure(24), visit_least=Decimal(250)).visits
    assert (first.to_least, second.to_least) == (Decimal(0), Decimal(55))
    assert second.amount == Decimal(35) + Decimal(55)


def test_a_visit_is_charged_otherwise_with_a_reason_only() -> None:
    free = VisitByHand(begins="second fix", amount=Decimal(0), why="on the way to the next street")
    made = priced(cure(24), visits=(free,))
    assert (made.visits[1].amount, made.visits[1].worked_out, made.visits[1].by_hand) == (Decimal(0), Decimal(35), free.why)
    assert beside(made) == Decimal(60)
    assert made.break_even == priced(cure(24)).break_even
    for unsaid in (replace(free, why=" "), replace(free, amount=None)):
        assert priced(cure(24), visits=(unsaid,)).visits == priced(cure(24)).visits


def test_what_is_typed_and_not_used_is_said() -> None:
    typed = (
        VisitByHand(begins="second fix", amount=Decimal(5), why="near"),
        VisitByHand(begins="second fix", amount=Decimal(5)),
        VisitByHand(begins="second fix", why="near"),
        VisitByHand(begins="tiling", amount=Decimal(5), why="near"),
    )
    terms = replace(ALONE, visits=typed)
    assert [each.path for each in visit_problems(priced(cure(24)), terms)] == [
        "terms.visits.1.why",
        "terms.visits.2.amount",
        "terms.visits.3.begins",
    ]
    assert [each.path for each in visit_problems(priced(), terms)] == [f"terms.visits.{place}.begins" for place in range(4)]


def test_a_wait_that_changes_changes_the_visits_of_a_job() -> None:
    """A longer wait for the tanking comes between boards and tiles of the family bathroom."""
    job, book = put(next(each for each in demo_jobs() if each.number == "102"), "terms.start", ""), supplied_book()
    slow = replace(book.figures["drying.tanking"], value=48.0)

    def worked(of: Estimate) -> list[str]:
        return [each.begins for each in of.price.visits]

    usual, slower = estimate(job, book), estimate(job, replace(book, figures={**book.figures, slow.key: slow}))
    assert worked(usual) == ["strip out", "second fix"]
    assert worked(slower) == ["strip out", "tiling", "second fix"]
    assert beside(slower.price) > beside(usual.price)


@given(
    st.floats(0, 90), st.floats(0, 90), st.floats(0, 20), st.booleans(), st.sampled_from(("", "2026-12-03")), st.decimals(0, 500, places=2)
)
def test_every_day_with_work_of_ones_own_is_of_one_visit(
    dries: float, cures: float, again: float, tiler: bool, start: str, least: Decimal
) -> None:
    tanking = Wait("Tanking dries", number(dries, "h"), "boarding", ("tiling",))
    made = priced(tanking, cure(cures), again=again, people=(TILER,) if tiler else (), start=start, visit_least=least)
    numbers = [day.visit for day in made.programme if day.visit]
    assert numbers == sorted(numbers)
    assert sum(each.days for each in made.visits) == len(numbers)
    assert [each.number for each in made.visits] == list(range(1, len(made.visits) + 1)) == sorted(set(numbers))
    assert beside(made) == sum((each.amount for each in made.visits), Decimal(0))
    assert made.kept == made.before_vat - made.break_even
    set_up = sum(hours for day in made.programme for name, hours in day.work if name == AGAIN)
    assert set_up == pytest.approx(sum(each.again for each in made.visits), abs=0.02)
    if not tiler:
        assert all(bool(day.visit) == bool(day.work) for day in made.programme)
        parted = [one for one, other in zip(made.programme, made.programme[1:], strict=False) if one.visit and not other.visit]
        assert len(made.visits) == len(parted) + 1
