"""Norms taken over from finished jobs, in the database."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from tundish.estimate import estimate
from tundish.field import Entry
from tundish.figure import Known
from tundish.pricing.norms import norms_of, unrounded
from tundish.pricing.suggested import norms_taken, suggested
from tundish.pricing.took import After, TookHours, finished
from tundish.store.keep import Store, demo_jobs
from tundish.store.norms import Taken, before_taking, finished_jobs, put_back, take_over, taken

DAY = "2026-11-20"


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A database with three finished jobs, the frames of which took 1.1, 1.25 and 3 times as long."""
    made = Store(f"sqlite:///{tmp_path / 'a.db'}")
    for place, ratio in enumerate((1.1, 1.25, 3.0)):
        job = replace(demo_jobs()[place], number=f"30{place}", demo="")
        worked = estimate(job, made.book())
        hours = next(unrounded(each.hours).value for each in worked.price.stages if each.stage == "frames")
        after = After(hours=(TookHours(stage="frames", hours=Entry(ratio * hours, Known.TYPED)),))
        made.add(replace(job, after=finished(after, worked.price.stages, worked.lines, made.book().figures, DAY)))
    yield made
    made.close()


def values(store: Store) -> dict[str, float]:
    return {key: each.value for key, each in store.book().figures.items()}


def take(store: Store) -> tuple[bool, dict[str, float]]:
    figures = store.book().figures
    frames = next(each for each in suggested(finished_jobs(store), figures) if each.stage == "frames")
    norms = norms_taken(frames, figures)
    assert frames.factor is not None
    new = Taken("frames", frames.factor.value, len(frames.ratios), "2026-11-26")
    return take_over(store, new, norms, {key: figures[key].value for key in norms}), norms


def test_finished_jobs_are_found_put_away_or_not_and_no_demonstration(store: Store) -> None:
    demo = store.find("101")
    assert demo is not None
    opened, revision = store.open(demo)
    assert opened.job is not None
    store.save(demo, replace(opened.job, after=After(finished=DAY)), revision, "finished")
    there = store.find("301")
    assert there is not None
    store.put_away(there, away=True)
    assert [each.name for each in finished_jobs(store)] == ["Job 300", "Job 301", "Job 302"]


def test_taking_over_multiplies_every_norm_of_the_stage_and_names_them(store: Store) -> None:
    before = values(store)
    took, norms = take(store)
    assert took
    assert norms == {each.key: pytest.approx(1.25 * each.supplied, abs=1e-3) for each in norms_of("frames", store.book().figures)}
    after = store.book().figures
    changed = {key for key, value in values(store).items() if value != before[key]}
    assert changed == {each.key for each in norms_of("frames", after)}
    assert {after[key].changed_words for key in changed} == {"changed Thu 26 Nov 2026, from 3 jobs"}
    assert [(each.stage, each.jobs) for each in taken(store)] == [("frames", 3)]


def test_a_second_press_takes_nothing_over(store: Store) -> None:
    figures = store.book().figures
    took, norms = take(store)
    assert took
    shown = {key: figures[key].value for key in norms}
    assert not take_over(store, Taken("frames", 1.25, 3, "2026-11-26"), norms, shown)
    assert len(taken(store)) == 1
    again = next(each for each in suggested(finished_jobs(store), store.book().figures) if each.stage == "frames")
    assert again.factor is not None
    assert again.factor.value == pytest.approx(1)
    assert not again.worth


def test_put_back_gives_what_was_before_also_what_was_typed(store: Store) -> None:
    store.overrule("labour.frame", 1.8)
    typed = store.book().figures["labour.frame"]
    before = values(store)
    take(store)
    assert values(store) != before
    back = before_taking(store, "frames")
    assert back == {each.key: before[each.key] for each in norms_of("frames", store.book().figures)}
    assert put_back(store, "frames") == len(norms_of("frames", store.book().figures))
    assert values(store) == before
    assert store.book().figures["labour.frame"] == typed
    assert taken(store) == ()
    assert put_back(store, "frames") == 0
    assert before_taking(store, "frames") == {}


def test_what_was_changed_since_stays_when_the_rest_is_put_back(store: Store) -> None:
    take(store)
    store.overrule("labour.frame", 9.0)
    store.overrule("labour.bar", None)
    assert store.book().figures["labour.frame"].changed_words.endswith(str(store.book().figures["labour.frame"].changed[:4]))
    assert before_taking(store, "frames").keys() == {"labour.prewall_m"}
    assert put_back(store, "frames") == 1
    figures = store.book().figures
    assert figures["labour.frame"].value == 9
    assert figures["labour.bar"].value == figures["labour.bar"].supplied
    assert figures["labour.prewall_m"].value == figures["labour.prewall_m"].supplied


def test_two_after_one_another_are_put_back_one_after_the_other(store: Store) -> None:
    before = values(store)
    take(store)
    first = values(store)
    figures = store.book().figures
    norms = {each.key: 2 * each.value for each in norms_of("frames", figures)}
    assert take_over(store, Taken("frames", 2, 4, "2026-12-01"), norms, {key: figures[key].value for key in norms})
    assert store.book().figures["labour.frame"].from_jobs == 4
    put_back(store, "frames")
    assert values(store) == first
    assert store.book().figures["labour.frame"].from_jobs == 3
    put_back(store, "frames")
    assert values(store) == before
