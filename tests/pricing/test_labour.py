"""Who works on what: rates by person and by piece of work, hours shared, and two at work at once."""

from __future__ import annotations

from dataclasses import fields, replace
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.catalogue.crew import DOES, WORKS, Crew, Person
from tundish.catalogue.load import supplied_book
from tundish.estimate import estimate
from tundish.field import Entry, fields_of, put
from tundish.figure import Figure, number
from tundish.pricing.labour import crewed_terms, harder
from tundish.pricing.price import Price
from tundish.pricing.terms import HARDER, Terms
from tundish.pricing.work_out import price, problems
from tundish.procurement.purchase import Buying
from tundish.rules.rule import LABOUR, STAGES, Need, Stage
from tundish.store.keep import demo_jobs

NOTHING = Buying((), (), ())
ALONE = Terms(labour_rate=Decimal(40), hours_a_day=Entry(8))
MATE = Person(name="Mate", rate=Decimal(22), paid=Decimal(15))
TILER = Person(name="Tiler", rate=Decimal(30), paid=Decimal(26), tiling="does it")


def hours(amount: float, stage: Stage = "frames", work: str = "") -> Need:
    return Need(number(amount, "h"), stage, "hours", role=LABOUR, work=work)


def priced(*people: Person, needs: tuple[Need, ...] = (hours(8),), **terms: object) -> Price:
    return price(needs, NOTHING, replace(ALONE, people=people, **terms))  # type: ignore[arg-type]


def test_alone_you_do_it_all_at_your_rate() -> None:
    (stage,) = priced().stages
    assert [(each.name, each.hours, each.amount, each.paid) for each in stage.people] == [("You", 8.0, Decimal("320.00"), Decimal(0))]
    assert (stage.labour, stage.lasts, stage.hours.value) == (Decimal("320.00"), 8.0, 8.0)


def test_shared_work_takes_half_as_long_and_each_has_their_rate() -> None:
    made = priced(replace(MATE, frames="shares it"))
    (stage,) = made.stages
    assert [(each.name, each.hours, each.amount) for each in stage.people] == [("You", 4.0, Decimal(160)), ("Mate", 4.0, Decimal(88))]
    assert (stage.labour, stage.lasts, made.days) == (Decimal(248), 4.0, 1)


def test_who_helps_is_there_as_long_as_it_takes_and_is_charged_besides() -> None:
    made = priced(replace(MATE, frames="helps"))
    (stage,) = made.stages
    assert [(each.name, each.hours) for each in stage.people] == [("You", 8.0), ("Mate", 8.0)]
    assert (stage.labour, stage.lasts, stage.hours.value) == (Decimal(320 + 176), 8.0, 8.0)


def test_work_that_another_does_is_at_their_rate_and_none_of_yours() -> None:
    (stage,) = priced(replace(MATE, frames="does it")).stages
    assert [(each.name, each.hours, each.amount, each.paid) for each in stage.people] == [("Mate", 8.0, Decimal(176), Decimal(120))]


def test_a_tiler_tiles_and_you_board_in_one_stage() -> None:
    made = priced(TILER, needs=(hours(3, "boarding"), hours(5, "boarding", "tiling")))
    (stage,) = made.stages
    assert [(each.name, each.hours, each.amount) for each in stage.people] == [("You", 3.0, Decimal(120)), ("Tiler", 5.0, Decimal(150))]
    assert stage.lasts == 8.0


def test_a_mate_who_shares_with_a_tiler_is_not_with_you() -> None:
    (stage,) = priced(TILER, replace(MATE, tiling="shares it"), needs=(hours(6, "boarding", "tiling"),)).stages
    assert [(each.name, each.hours) for each in stage.people] == [("Tiler", 3.0), ("Mate", 3.0)]


def test_harder_work_and_halves_are_shared_out_too() -> None:
    made = priced(TILER, needs=(hours(3, "boarding"), hours(5, "boarding", "tiling")), difficulty=Entry(10))
    (stage,) = made.stages
    assert stage.hours.value == 9.0  # 8.8, up to halves
    assert [each.hours for each in stage.people] == [3.375, 5.625]


def test_what_others_are_paid_and_overhead_are_not_kept() -> None:
    made = priced(replace(MATE, frames="helps"), overhead_hour=Decimal(5), keep_a_day=Decimal(100))
    assert made.before_vat == Decimal(320 + 176 + 80)  # overhead on all 16 hours that are charged
    assert made.break_even == Decimal(120 + 80)
    assert made.kept == Decimal(376)
    assert made.kept_an_hour == Decimal("47.00")  # of the 8 hours that it lasts
    assert made.least == Decimal(300)


def test_who_works_without_a_rate_is_named_and_not_nothing() -> None:
    made = priced(Person(name="Mate", frames="helps"))
    assert not made.labour_priced
    (said,) = problems(replace(ALONE, people=(Person(name="Mate", frames="helps"),)))
    assert (said.path, said.text) == ("terms.people.0.rate", "Mate has no rate: those hours are not in the price")
    assert problems(replace(ALONE, people=(Person(name="Mate"),))) == ()


def test_a_job_whose_work_others_do_needs_no_rate_of_yours() -> None:
    assert priced(replace(MATE, frames="does it"), labour_rate=None).labour_priced


def test_the_usual_rate_and_people_serve_where_the_job_says_nothing() -> None:
    crew = Crew(rate=Decimal(45), people=(MATE,))
    assert crewed_terms(Terms(), crew).labour_rate == Decimal(45)
    assert crewed_terms(Terms(), crew).people == (MATE,)
    own = Terms(labour_rate=Decimal(0), people=(TILER,))
    assert crewed_terms(own, crew) == own


@pytest.mark.parametrize("work", WORKS.values())
def test_every_piece_of_work_may_be_done_by_another(work: str) -> None:
    name = next(name for name, words in WORKS.items() if words == work)
    somebody = put(MATE, name, "does it")
    stage: Stage = next((each for each in STAGES if each == work), "boarding")
    (made,) = priced(somebody, needs=(hours(2, stage, work if work not in STAGES else ""),)).stages
    assert [each.name for each in made.people] == ["Mate"]


def test_a_person_has_an_input_for_every_piece_of_work() -> None:
    assert set(WORKS) == set(fields_of(Person)) - {"name", "rate", "paid", "own_way"}
    assert {each.name for each in fields(Person)} == set(fields_of(Person))


does = st.fixed_dictionaries({name: st.sampled_from(DOES) for name in WORKS})


@given(
    st.lists(st.tuples(st.sampled_from(STAGES), st.floats(0.1, 40), st.booleans()), min_size=1, max_size=8),
    st.lists(does, max_size=3),
    st.floats(-20, 60),
)
def test_nobodys_hours_are_lost_and_none_are_made(
    work: list[tuple[Stage, float, bool]], people: list[dict[str, Any]], harder: float
) -> None:
    needs = tuple(hours(time, stage, "tiling" if tiles and stage == "boarding" else "") for stage, time, tiles in work)
    crew = tuple(Person(name=f"P{place}", rate=Decimal(20), paid=Decimal(10), **each) for place, each in enumerate(people))
    for stage in priced(*crew, needs=needs, difficulty=Entry(harder)).stages:
        total = sum(each.hours for each in stage.people)
        helped = any(each.does(job) == "helps" for each in crew for job in WORKS.values())
        assert 0 < stage.lasts <= stage.hours.value + 1e-3
        assert total == pytest.approx(stage.hours.value, abs=1e-2) if not helped else total >= stage.hours.value - 1e-2
        assert stage.labour == sum(each.amount for each in stage.people)


def test_what_is_ticked_makes_every_stage_harder_by_its_figure_and_adds_up() -> None:
    figures = supplied_book().figures
    terms = Terms(old_house=True, alone=True, difficulty=Entry(10))
    more = harder(terms, figures)
    assert [(each.value, each.unit) for each in more] == [(10, "%"), (10, "%")]
    (stage,) = price((hours(10, "frames"),), NOTHING, terms, (), more).stages
    assert stage.hours.value == 13
    assert {each.label for each in rests_under(stage.hours)} >= {"Old house: harder by", "Working alone: harder by"}
    assert harder(Terms(), figures) == ()


@given(st.sets(st.sampled_from(sorted(HARDER))), st.sampled_from(sorted(HARDER)))
def test_a_further_tick_never_takes_less_time(ticked: set[str], further: str) -> None:
    figures = supplied_book().figures

    def lasts(names: set[str]) -> float:
        terms = Terms(**dict.fromkeys(names, True))  # type: ignore[arg-type]
        return price((hours(7, "frames"),), NOTHING, terms, (), harder(terms, figures)).hours.value

    assert lasts(ticked) <= lasts(ticked | {further})
    assert lasts(set()) == 7


def test_every_tick_has_its_figure_in_the_rule_book_and_moves_the_job() -> None:
    job = next(each for each in demo_jobs() if each.number == "101")
    before = estimate(job, supplied_book()).price.hours.value
    for name in HARDER:
        assert estimate(put(job, f"terms.{name}", value=True), supplied_book()).price.hours.value > before


def rests_under(figure: Figure) -> list[Figure]:
    return [figure, *(each for term in figure.terms for each in rests_under(term.figure))]
