"""After the job: what it took beside what was estimated, and the norms that finished jobs suggest."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cache
from statistics import median

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.catalogue.book import Book, RuleFigure
from tundish.catalogue.load import supplied_book
from tundish.catalogue.own_rules import OwnRule
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry
from tundish.figure import Known
from tundish.pricing.norms import norms_of, parts, unrounded
from tundish.pricing.suggested import LEAST_JOBS, FinishedJob, Suggested, norms_taken, suggested
from tundish.pricing.took import (
    After,
    TookHours,
    TookLine,
    finished,
    lines_beside,
    not_finished,
    stages_beside,
    with_amount,
    with_hours,
    without_hours,
)
from tundish.rules.rule import STAGES
from tundish.store.keep import demo_jobs

DAY = "2026-12-18"
Figures = Mapping[str, RuleFigure]


@cache
def demo() -> tuple[Job, ...]:
    return demo_jobs()


@cache
def as_supplied(place: int = 0) -> Estimate:
    return estimate(demo()[place], supplied_book())


def worked(place: int = 0, book: Book | None = None, **terms: object) -> Estimate:
    job = demo()[place]
    return estimate(replace(job, terms=replace(job.terms, **terms)), book or supplied_book())  # type: ignore[arg-type]


def hours(stage: str, took: float | None, who: str = "") -> TookHours:
    return TookHours(stage=stage, who=who, hours=None if took is None else Entry(took, Known.TYPED))


def job_that_took(took: Mapping[str, float], made: Estimate, name: str = "Job") -> FinishedJob:
    after = After(hours=tuple(hours(stage, each) for stage, each in took.items()))
    return FinishedJob(name, finished(after, made.price.stages, made.lines, made.book.figures, DAY))


def by_norms(made: Estimate, stage: str) -> float:
    return next(unrounded(each.hours).value for each in made.price.stages if each.stage == stage)


def with_norms(factor: float, stage: str) -> Book:
    book = supplied_book()
    changed = {each.key: replace(each, value=each.value * factor) for each in norms_of(stage, book.figures)}
    return replace(book, figures={**book.figures, **changed})


def factor_of(jobs: Sequence[FinishedJob], figures: Figures, stage: str = "frames") -> Suggested:
    return next(each for each in suggested(jobs, figures) if each.stage == stage)


def jobs_at(ratios: Sequence[float], stage: str = "frames") -> list[FinishedJob]:
    """Jobs that took so many times what the norms give, each a different one."""
    base = as_supplied()
    return [job_that_took({stage: ratio * by_norms(base, stage)}, base, f"Job {place}") for place, ratio in enumerate(ratios)]


@pytest.mark.parametrize("place", [0, 1, 2, 3])
def test_the_parts_of_a_stage_add_up_to_its_hours_before_rounding(place: int) -> None:
    made = worked(place, difficulty=Entry(20.0))
    for stage in made.price.stages:
        found = parts(stage.hours, norms_of(stage.stage, made.book.figures))
        assert sum(each.hours for each in found) == pytest.approx(unrounded(stage.hours).value)
        assert all(each.norm is not None for each in found)
        assert unrounded(stage.hours).value <= stage.hours.value < unrounded(stage.hours).value + 0.5


def test_each_part_moves_with_its_own_norm_and_no_other() -> None:
    """Worked again with one norm doubled, the stage has just that part more."""
    book = supplied_book()
    made = worked(1, difficulty=Entry(30.0))
    for stage in STAGES:
        for part in parts(next(each.hours for each in made.price.stages if each.stage == stage), norms_of(stage, book.figures)):
            assert part.norm is not None
            doubled = replace(part.norm, value=2 * part.norm.value)
            again = worked(1, replace(book, figures={**book.figures, part.norm.key: doubled}), difficulty=Entry(30.0))
            assert by_norms(again, stage) == pytest.approx(by_norms(made, stage) + part.hours)


def test_every_norm_is_of_one_stage() -> None:
    figures = supplied_book().figures
    keys = [each.key for stage in STAGES for each in norms_of(stage, figures)]
    assert sorted(keys) == sorted(key for key, each in figures.items() if key.startswith("labour.") and each.unit.startswith("h"))
    for stage in STAGES:
        labels = [each.label for each in norms_of(stage, figures)]
        assert len(labels) == len(set(labels))


def test_hours_by_rules_of_ones_own_are_no_norm() -> None:
    rule = OwnRule(name="carry up", every="frame", allow="0.5", item="hours", rounded=False, stage="frames")
    made = worked(0, replace(supplied_book(), own_rules=(rule,)))
    found = parts(next(each.hours for each in made.price.stages if each.stage == "frames"), norms_of("frames", made.book.figures))
    rest = [each.hours for each in found if each.norm is None]
    assert rest == [pytest.approx(by_norms(made, "frames") - by_norms(as_supplied(), "frames"))]
    assert rest[0] > 0


def test_what_was_not_typed_is_not_nothing() -> None:
    made = as_supplied()
    after = with_hours(After(), hours("frames", 5, "M. T."))
    told = {each.key: each for each in stages_beside(after, made.price.stages)}
    assert told["frames"].took is not None
    assert told["frames"].took.value == 5
    assert told["frames"].more is not None
    assert told["frames"].more.value == pytest.approx(5 - by_norms(made, "frames"))
    assert told["boarding"].took is None
    assert told["boarding"].more is None


def test_the_hours_of_all_who_worked_count_together_and_wait_for_who_has_not_said() -> None:
    after = with_hours(with_hours(After(), hours("frames", 5, "M. T.")), hours("frames", 2.5, "S. O."))
    made = as_supplied()

    def took(of: After) -> float | None:
        found = next(each.took for each in stages_beside(of, made.price.stages) if each.key == "frames")
        return None if found is None else found.value

    assert took(after) == 7.5
    assert took(with_hours(after, hours("frames", None, "s. o. "))) is None
    assert took(with_hours(after, hours("frames", 3, "S. O."))) == 8
    assert took(without_hours(after, hours("frames", None, "S. O."))) == 5


def test_who_only_helped_does_not_count_against_the_norm() -> None:
    after = with_hours(with_hours(After(), hours("frames", 5, "M. T.")), replace(hours("frames", 5, "Mate"), helped=True))
    told = next(each for each in stages_beside(after, as_supplied().price.stages) if each.key == "frames")
    assert told.took is not None
    assert told.took.value == 5
    assert len(told.rows) == 2


def test_a_stage_that_nobody_estimated_is_told_once_it_took_hours() -> None:
    after = with_hours(After(), hours("strip out", 2))
    told = [each for each in stages_beside(after, ()) if each.took is not None]
    assert [(each.key, each.estimated.value) for each in told] == [("strip out", 0)]


def test_amounts_stand_beside_the_list_and_those_of_nothing_on_it_after() -> None:
    made = as_supplied()
    line = made.lines[0]
    after = with_amount(After(), TookLine(item=line.item.code, what=line.item.name, unit=line.item.unit, took=Entry(line.amount.value + 3)))
    after = with_amount(after, TookLine(item="odd", what="Odd thing", unit="each", took=Entry(2.0)))
    told = lines_beside(after, made.lines)
    assert told[0].more is not None
    assert told[0].more.value == pytest.approx(3)
    assert told[1].took is None
    assert (told[-1].name, told[-1].estimated.value, told[-1].took and told[-1].took.value) == ("Odd thing", 0, 2)
    assert with_amount(after, TookLine(item="odd")).lines == after.lines[:1]


def test_a_finished_job_keeps_what_was_estimated_whatever_the_norms_become() -> None:
    made, later = as_supplied(), worked(0, with_norms(2, "frames"))
    line = made.lines[0]
    after = with_amount(After(), TookLine(item=line.item.code, unit=line.item.unit, took=Entry(1.0)))
    after = with_hours(after, hours("frames", 5))
    done = finished(after, made.price.stages, made.lines, made.book.figures, DAY)
    told = next(each for each in stages_beside(done, later.price.stages) if each.key == "frames")
    assert told.estimated.value == pytest.approx(by_norms(made, "frames"))
    assert lines_beside(done, ())[-1].estimated.value == line.amount.value
    assert next(each for each in stages_beside(not_finished(done), later.price.stages) if each.key == "frames").estimated.value == (
        pytest.approx(by_norms(later, "frames"))
    )


def test_fewer_than_three_jobs_suggest_nothing() -> None:
    figures = supplied_book().figures
    few = factor_of(jobs_at([1.5] * 1 + [1.4]), figures)
    assert len(few.ratios) == LEAST_JOBS - 1
    assert few.factor is None
    assert norms_taken(few, figures) == {}


def test_the_middle_of_what_jobs_took_is_suggested() -> None:
    figures = supplied_book().figures
    odd, even = factor_of(jobs_at([1.1, 9.0, 1.3]), figures), factor_of(jobs_at([1.1, 1.4, 1.2, 9.0]), figures)
    assert odd.factor is not None
    assert even.factor is not None
    assert odd.factor.value == pytest.approx(1.3)
    assert even.factor.value == pytest.approx(1.3)
    assert [each.label for each in odd.ratios] == ["Job 0", "Job 2", "Job 1"]


def test_jobs_that_cannot_say_are_left_out() -> None:
    """Not finished, hours not said or not sure, none, or a stage without any estimated."""
    base = as_supplied()
    jobs = jobs_at([1.2, 1.2])
    say_nothing = [
        job_that_took({}, base),
        job_that_took({"frames": 0}, base),
        FinishedJob("a", After(hours=(hours("frames", 9),))),
        FinishedJob("b", replace(jobs[0].after, by_norm=())),
        FinishedJob("c", replace(jobs[0].after, hours=(TookHours(stage="frames", hours=Entry(9.0, low=8.0, high=11.0, tbc=True)),))),
        replace(jobs[0], name="the same record again"),
    ]
    assert len(factor_of([*jobs[:1], *say_nothing], supplied_book().figures).ratios) == 1


ratios = st.lists(st.floats(0.3, 4), min_size=3, max_size=9, unique=True)


@given(ratios, st.randoms(use_true_random=False))
def test_the_order_of_jobs_does_not_matter(given_ratios: list[float], random: object) -> None:
    jobs = jobs_at(given_ratios)
    shuffled = list(jobs)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    figures = supplied_book().figures
    assert factor_of(jobs, figures) == factor_of(shuffled, figures)
    assert factor_of(jobs, figures).factor.value == pytest.approx(median(given_ratios))  # type: ignore[union-attr]


@given(ratios, st.floats(0.01, 40))
def test_one_odd_job_moves_it_no_further_than_the_other_jobs_lie(given_ratios: list[float], odd: float) -> None:
    figures = supplied_book().figures
    factor = factor_of(jobs_at([*given_ratios, odd]), figures).factor
    assert factor is not None
    assert min(given_ratios) - 1e-9 <= factor.value <= max(given_ratios) + 1e-9


@given(ratios, st.sampled_from(STAGES))
def test_once_taken_over_nothing_more_is_suggested(given_ratios: list[float], stage: str) -> None:
    figures = dict(supplied_book().figures)
    jobs = jobs_at(given_ratios, stage)
    norms = norms_taken(factor_of(jobs, figures, stage), figures)
    after = figures | {key: replace(figures[key], value=value) for key, value in norms.items()}
    again = factor_of(jobs, after, stage)
    assert again.factor is not None
    assert again.factor.value == pytest.approx(1, abs=2e-3) if norms else again.factor.value == pytest.approx(1, abs=0.005)
    assert not norms_taken(again, after)
    assert set(norms) in (set(), {each.key for each in norms_of(stage, figures)})
    assert all(after[key] == figures[key] for key in figures if key not in norms)


@settings(max_examples=25)  # each is two estimates; what is drawn are no more than two shares
@given(st.floats(0.4, 3), st.floats(0.4, 3))
def test_jobs_estimated_at_other_norms_say_the_same(really: float, changed: float) -> None:
    """A stage that really takes so many times the supplied norms: whatever norms a job was estimated at, it says so of those that stand."""
    base, at_changed = as_supplied(), worked(0, with_norms(changed, "frames"))
    takes = really * by_norms(base, "frames")
    jobs = [job_that_took({"frames": takes + place * 1e-9}, made, f"{place}") for place, made in enumerate([base, at_changed, at_changed])]
    for figures, wanted in ((base.book.figures, really), (at_changed.book.figures, really / changed)):
        factor = factor_of(jobs, figures).factor
        assert factor is not None
        assert factor.value == pytest.approx(wanted)


def test_one_norm_changed_by_hand_is_carried_over_by_itself() -> None:
    """The norm of a frame doubled by hand: jobs of before are taken at it, metre of strut unchanged."""
    base = worked(1)
    figures = dict(base.book.figures)
    now = figures | {"labour.frame": replace(figures["labour.frame"], value=2 * figures["labour.frame"].value)}
    later = worked(1, replace(base.book, figures=now))
    jobs = [job_that_took({"frames": by_norms(later, "frames") + place * 1e-9}, base, f"{place}") for place in range(3)]
    factor = factor_of(jobs, now).factor
    assert factor is not None
    assert factor.value == pytest.approx(1)


def test_hours_by_rules_of_ones_own_are_taken_off_before_the_norms_are_judged() -> None:
    rule = OwnRule(name="carry up", every="frame", allow="0.5", item="hours", rounded=False, stage="frames")
    made = worked(0, replace(supplied_book(), own_rules=(rule,)))
    own = by_norms(made, "frames") - by_norms(as_supplied(), "frames")
    jobs = [job_that_took({"frames": own + 1.5 * by_norms(as_supplied(), "frames") + place * 1e-9}, made, f"{place}") for place in range(3)]
    factor = factor_of(jobs, supplied_book().figures).factor
    assert factor is not None
    assert factor.value == pytest.approx(1.5)


def test_a_stage_is_told_by_its_name_and_a_record_without_hours_says_nothing() -> None:
    figures = supplied_book().figures
    jobs = jobs_at([1.2, 1.3, 1.4])
    told = factor_of(jobs, figures)
    assert told.name == "Frames and pre-wall"
    blank = FinishedJob("blank", replace(jobs[0].after, by_norm=tuple(replace(each, hours=None) for each in jobs[0].after.by_norm)))
    assert factor_of([*jobs, blank], figures).ratios == told.ratios
    assert told.factor is not None
    assert told.factor.terms[0].figure.note == "of Job 0 × 1.20, Job 1 × 1.30, Job 2 × 1.40"
