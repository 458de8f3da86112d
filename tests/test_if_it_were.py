"""What another value of one input would change, against the room worked out with it."""

from __future__ import annotations

import pytest

from tests.rules.test_cases import given, the_book
from tundish.estimate import Job
from tundish.field import Entry, NoSuchInputError, put
from tundish.if_it_were import if_it_were
from tundish.layout.undecided import chosen
from tundish.layout.work_out import work_out

DEPTH = "rooms.0.design.prewall.depth"


@pytest.fixture(scope="module")
def job() -> Job:
    return Job(rooms=(given({"room": "plain"})[0].plan,))


def test_the_value_there_is_changes_nothing(job: Job) -> None:
    (outcome,) = if_it_were(job, the_book(), DEPTH, [Entry(225)])
    assert (outcome.figures, outcome.findings, outcome.problems) == ((), (), ())


def test_figures_come_out_as_if_it_had_been_typed(job: Job) -> None:
    outcomes = if_it_were(job, the_book(), DEPTH, [Entry(180), Entry(300)])
    for outcome in outcomes:
        room = work_out(put(job.rooms[0], "design.prewall.depth", outcome.value), the_book())
        changed = {each.name: each.after for each in outcome.figures}
        assert {"depth", "wc-1.reach", "finished_face"} <= set(changed)
        assert "wc-1.studs" not in changed
        for name, after in changed.items():
            assert (after and after.value) == (room.figures[name].value if name in room.figures else None)


def test_what_is_settled_before_closing_for_another_value_is_told(job: Job) -> None:
    now, (other,) = job.rooms[0].survey.water.pressure, if_it_were(job, the_book(), "rooms.0.survey.water.pressure", [Entry(7.0)])
    assert now != Entry(7.0)
    assert [each.title for each in other.decisions] == ["Hot and cold pressure tested"]
    assert "10.5 bar" in other.decisions[0].why


def test_checks_that_would_break_and_mend(job: Job) -> None:
    deep = if_it_were(job, the_book(), DEPTH, [Entry(500)])[0]
    assert "Tie rod reach" in {each.after.title for each in deep.findings if each.breaks and each.after}
    bad = put(job, DEPTH, Entry(500))
    back = if_it_were(bad, the_book(), DEPTH, [Entry(225)])[0]
    assert "Tie rod reach" in {each.before.title for each in back.findings if each.mends and each.before}


def test_trouble_that_it_would_bring_is_told(job: Job) -> None:
    (outcome,) = if_it_were(job, the_book(), "rooms.0.design.appliances.0.ware", ["gone"])
    assert [each.path for each in outcome.problems] == ["rooms.0.design.appliances.0.ware"]
    assert "wc-1.studs" in {each.name for each in outcome.figures if each.after is None}


@pytest.mark.parametrize("path", ["number", "rooms", "rooms.0", "rooms.7.name", "rooms.x.name", "rooms.0.design.sauna"])
def test_a_path_that_is_no_input_of_a_room(job: Job, path: str) -> None:
    with pytest.raises(NoSuchInputError):
        if_it_were(job, the_book(), path, [1])


def test_another_value_of_a_choice_left_open_settles_it(job: Job) -> None:
    open_ = Job(rooms=(chosen(job.rooms[0], "survey.wall.construction", ("timber stud", "brick")),))
    (outcome,) = if_it_were(open_, the_book(), "rooms.0.survey.wall.construction", ["brick"])
    after = {each.name: each.after for each in outcome.figures}
    reach = after["wc-1.reach"]
    assert reach is not None
    assert reach.low == reach.high
