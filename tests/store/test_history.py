"""The steps of a job as its revisions tell them."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tundish.estimate import MOST_STEPS, Job
from tundish.store.history import UNDONE
from tundish.store.keep import Saved, Store


def title(store: Store, kept: Saved, revision: int) -> str:
    job = store.at(kept.id, revision)
    assert job is not None
    return job.title


def saved(store: Store, kept: Saved, words: str, label: str, *, joined: bool = False, again: bool = False) -> Saved:
    return store.save(kept.id, Job(number="7", title=words), kept.revision, label, joined=joined, again=again)


def test_every_step_leads_back_to_what_it_began_from(store: Store) -> None:
    first = store.add(Job(number="7", title="first"))
    second = saved(store, first, "second", "set title")
    third = saved(store, second, "third", "set title again")
    steps = store.steps(third.id)
    assert [(each.label, title(store, third, each.other)) for each in steps] == [("set title again", "second"), ("set title", "first")]


def test_what_was_taken_back_is_no_step_and_what_came_after_begins_where_it_went_back_to(store: Store) -> None:
    first = store.add(Job(number="7", title="first"))
    second = saved(store, first, "second", "a")
    back = saved(store, second, "first", f"{UNDONE}a")
    assert store.steps(first.id) == ()
    other = saved(store, back, "other", "b")
    (step,) = store.steps(other.id)
    assert (step.label, title(store, other, step.other)) == ("b", "first")


def test_a_job_that_was_never_changed_has_no_steps_and_a_revision_that_is_not_kept_no_job(store: Store) -> None:
    kept = store.add(Job(number="7"))
    assert store.steps(kept.id) == store.steps(999) == ()
    assert store.at(kept.id, 12) is None


def test_no_more_steps_are_kept_than_can_be_undone(store: Store) -> None:
    kept = store.add(Job(number="7", title="0"))
    for turn in range(1, MOST_STEPS + 21):
        kept = saved(store, kept, str(turn), f"step {turn}")
    steps = store.steps(kept.id)
    assert [each.label for each in steps] == [f"step {turn}" for turn in range(MOST_STEPS + 20, 20, -1)]
    assert title(store, kept, steps[-1].other) == "20"
    assert len(store.revisions(kept.id)) == MOST_STEPS + 1


def ahead(store: Store, kept: Saved) -> list[tuple[str, str]]:
    return [(each.label, title(store, kept, each.other)) for each in store.steps_ahead(kept.id)]


def test_what_was_taken_back_can_be_done_again_in_turn_until_something_new_is_done(store: Store) -> None:
    kept = store.add(Job(number="7", title="0"))
    for words in "123":
        kept = saved(store, kept, words, f"to {words}")
    for words in "21":
        kept = saved(store, kept, words, f"{UNDONE}to {int(words) + 1}")
    assert ahead(store, kept) == [("to 2", "2"), ("to 3", "3")]
    kept = saved(store, kept, "2", "to 2", again=True)
    assert ahead(store, kept) == [("to 3", "3")]
    kept = saved(store, kept, "1", f"{UNDONE}to 2")
    assert ahead(store, kept) == [("to 2", "2"), ("to 3", "3")]
    assert ahead(store, saved(store, kept, "other", "new")) == []


def test_going_to_and_fro_loses_nothing_that_is_ahead_and_keeps_no_more_each_time(store: Store) -> None:
    kept = store.add(Job(number="7", title="0"))
    for words in "12":
        kept = saved(store, kept, words, f"to {words}")
    for words in "10":
        kept = saved(store, kept, words, f"{UNDONE}to {int(words) + 1}")
    many = []
    for _ in range(6):
        kept = saved(store, kept, "1", "to 1", again=True)
        assert ahead(store, kept) == [("to 2", "2")]
        kept = saved(store, kept, "0", f"{UNDONE}to 1")
        assert ahead(store, kept) == [("to 1", "1"), ("to 2", "2")]
        many.append(len(store.revisions(kept.id)))
    assert many[-1] == many[1]


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.sampled_from(["new", "joined", "back", "back", "again", "again"]), max_size=24))
def test_the_steps_are_those_that_a_history_in_memory_would_hold(store: Store, acts: list[str]) -> None:
    kept, done = store.add(Job(number="7", title="0")), [("", "0")]
    undone: list[tuple[str, str]] = []
    after_a_step = False
    for turn, act in enumerate(acts, 1):
        if act == "back" and len(done) > 1:
            undone.append(done.pop())
            kept = saved(store, kept, done[-1][1], f"{UNDONE}{undone[-1][0]}")
        elif act == "again" and undone:
            done.append(undone.pop())
            kept = saved(store, kept, done[-1][1], done[-1][0], again=True)
        elif act == "joined" and after_a_step:
            label, _ = done.pop()
            done.append((label, str(turn)))
            kept = saved(store, kept, str(turn), label, joined=True)
        elif act == "new":
            done.append((f"step {turn}", str(turn)))
            undone.clear()
            kept = saved(store, kept, str(turn), f"step {turn}")
        after_a_step = act in {"new", "joined"} and len(done) > 1 and (act == "new" or after_a_step)
    found = [(each.label, title(store, kept, each.other)) for each in reversed(store.steps(kept.id))]
    assert found == [(label, before) for (_, before), (label, _) in pairwise(done)]
    assert ahead(store, kept) == list(reversed(undone))
