"""The open job and its history."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from tundish.estimate import MOST_STEPS, Job
from tundish.field import Entry, put
from tundish.figure import Known
from tundish.layout.design import Appliance, RoomPlan
from tundish.layout.undecided import others
from tundish.session import LOCKED, Session, Step
from tundish.survey.settled import CLOSED, Settled
from tundish.survey.shape import Photograph

WIDTH = "rooms.0.survey.room.width"


def opened() -> Session:
    return Session(Job(number="7", rooms=(RoomPlan(name="Cloakroom"),)))


def test_setting_an_input_makes_a_named_step() -> None:
    session = opened()
    assert session.set(WIDTH, 1740) == ()
    assert session.job.rooms[0].survey.room.width == Entry(1740)
    assert session.undo_label == "set Width along wall A"


def test_a_step_says_of_which_of_several_it_is() -> None:
    session = opened()
    session.add("rooms.0.design.appliances", Appliance(kind="wc", name="WC 1"), "add WC 1")
    session.set("rooms.0.design.appliances.0.centre", 700)
    assert session.undo_label == "set Centre from left wall, WC 1"
    session.set("rooms.0.design.appliances.0.bracket", ("turned", "square to the wall"))
    assert session.undo_label.endswith(", WC 1")
    session.edit("add a room", replace(session.job, rooms=(*session.job.rooms, RoomPlan(name="Bathroom"))))
    session.set(WIDTH, 1800)
    assert session.undo_label == "set Width along wall A, Cloakroom"


def test_what_cannot_be_taken_comes_back_and_nothing_changes() -> None:
    session = opened()
    (problem,) = session.set(WIDTH, "wide")
    assert problem.path == WIDTH
    assert session.job.rooms[0].survey.room.width is None
    assert session.undo_label == ""


def test_paths_that_name_no_input_or_a_group_are_answered_with_words() -> None:
    session = opened()
    assert "no input" in session.set("rooms.0.survey.roof", 1)[0].text
    assert "no input" in session.set("rooms.4.name", "x")[0].text
    assert "group" in session.set("rooms.0.survey", {})[0].text


def test_setting_the_same_value_is_no_step() -> None:
    session = opened()
    session.set("number", "7")
    assert session.done == []


def test_joined_changes_of_one_input_are_one_step() -> None:
    session = opened()
    for width in (1700, 1710, 1720):
        session.set(WIDTH, width, joined=True)
    assert len(session.done) == 1
    session.undo()
    assert session.job.rooms[0].survey.room.width is None


def test_adding_and_removing_can_be_taken_back() -> None:
    session = opened()
    assert session.add("rooms.0.design.appliances", Appliance(kind="wc", name="WC 1"), "add WC 1") == ()
    session.remove("rooms.0.design.appliances", 0, "remove WC 1")
    assert not session.job.rooms[0].design.appliances
    session.undo()
    assert session.job.rooms[0].design.appliances[0].name == "WC 1"
    session.undo()
    assert session.redo_label == "add WC 1"
    session.redo()
    assert session.job.rooms[0].design.appliances[0].name == "WC 1"


def test_nothing_to_undo_or_redo_says_so() -> None:
    session = opened()
    assert session.undo() is None
    assert session.redo() is None
    assert session.redo_label == ""


def test_a_new_step_forgets_what_was_taken_back() -> None:
    session = opened()
    session.set(WIDTH, 1700)
    session.undo()
    session.set(WIDTH, 1800)
    assert session.redo() is None


def test_listeners_hear_each_step() -> None:
    session = opened()
    heard: list[Step] = []
    session.listeners.append(heard.append)
    session.set(WIDTH, 1700)
    session.undo()
    assert [step.label for step in heard] == ["set Width along wall A"] * 2


def test_clearing_says_clear() -> None:
    session = opened()
    session.set(WIDTH, 1700)
    session.set(WIDTH, None)
    assert session.undo_label == "clear Width along wall A"


@given(st.lists(st.tuples(st.sampled_from([WIDTH, "rooms.0.survey.room.depth", "number", "title"]), st.integers(400, 9000)), max_size=30))
def test_undoing_every_step_gives_the_first_job_and_redoing_the_last(edits: list[tuple[str, int]]) -> None:
    session = opened()
    first = session.job
    for path, value in edits:
        session.set(path, value if "room" in path else str(value))
    last = session.job
    while session.undo():
        pass
    assert session.job == first
    while session.redo():
        pass
    assert session.job == last


def test_only_the_last_two_hundred_steps_are_kept() -> None:
    session = opened()
    for width in range(400, 400 + MOST_STEPS + 5):
        session.set(WIDTH, width)
    assert len(session.done) == MOST_STEPS


def test_a_change_that_changes_nothing_is_no_step() -> None:
    session = opened()
    session.edit("rename", session.job)
    assert not session.done


WALL = "rooms.0.survey.wall.construction"


def test_a_choice_given_as_several_is_left_open_in_one_step() -> None:
    session = opened()
    assert session.set(WALL, ("brick", "block")) == ()
    assert session.job.rooms[0].survey.wall.construction == "brick"
    assert others(session.job.rooms[0], "survey.wall.construction") == ("block",)
    assert session.undo_label == "leave open Construction"
    assert len(session.done) == 1
    session.undo()
    assert session.job == opened().job


def test_one_value_settles_an_open_choice_even_at_what_came_first() -> None:
    session = opened()
    session.set(WALL, ("brick", "block"))
    session.set(WALL, "brick")
    assert others(session.job.rooms[0], "survey.wall.construction") == ()
    assert len(session.done) == 2


def test_alternatives_that_cannot_be_taken_change_nothing() -> None:
    session = opened()
    (problem,) = session.set(WALL, ("brick", "straw"))
    assert problem.path == WALL
    (problem,) = session.set(WALL, ("timber stud", "metal stud", "brick", "block", "concrete"))
    assert "at most 4" in problem.text
    assert session.done == []


def test_what_is_left_open_of_a_record_goes_with_it_and_comes_back_with_undo() -> None:
    session = opened()
    for name in ("WC 1", "WC 2"):
        session.add("rooms.0.design.appliances", Appliance(kind="wc", name=name), f"add {name}")
    session.set("rooms.0.design.appliances.1.outlet", ("straight back", "turned to the stack"))
    session.remove("rooms.0.design.appliances", 0, "take out WC 1")
    assert others(session.job.rooms[0], "design.appliances.0.outlet") == ("turned to the stack",)
    session.remove("rooms.0.design.appliances", 0, "take out WC 2")
    assert session.job.rooms[0].undecided == ()
    session.undo()
    assert others(session.job.rooms[0], "design.appliances.0.outlet") == ("turned to the stack",)


def closed() -> Session:
    session = opened()
    session.set(WIDTH, 1700)
    session.edit(
        "close the wall", replace(session.job, settled=(Settled(decision=CLOSED, state="settled", who="M. T.", when="2026-12-03"),))
    )
    return session


def test_nothing_behind_a_closed_wall_changes_whichever_way_it_is_asked() -> None:
    session = closed()
    before = session.job
    plan = before.rooms[0]
    told = (
        session.set(WIDTH, 1800),
        session.set("rooms.0.survey.room.depth", 900),
        session.add("rooms.0.design.appliances", Appliance(kind="wc", name="WC 1"), "add WC 1"),
        session.edit("add a room", replace(before, rooms=(plan, plan))),
    )
    assert [[each.text for each in problems] for problems in told] == [[LOCKED]] * 4
    assert session.job is before


def test_what_does_not_lie_behind_the_wall_may_change() -> None:
    session = closed()
    assert session.set("terms.labour_rate", "40") == ()
    assert session.set("rooms.0.name", "Shower room") == ()
    assert session.add("rooms.0.survey.photographs", Photograph(of="when finished"), "add a photograph") == ()
    assert session.job.rooms[0].name == "Shower room"
    assert len(session.job.rooms[0].survey.photographs) == 1


def test_opened_up_again_or_undone_it_is_open() -> None:
    session = closed()
    reopened = Settled(decision=CLOSED, state="open", when="2026-12-04", evidence="a weep")
    session.edit("open up again", replace(session.job, settled=(reopened,)))
    assert session.set(WIDTH, 1800) == ()
    other = closed()
    other.undo()
    assert other.set(WIDTH, 1800) == ()


def test_settling_after_closing_confirms_what_it_is_settled_for() -> None:
    session = closed()
    sure = put(session.job, WIDTH, Entry(1700.0, Known.AGREED))
    assert session.edit("settle", replace(sure, settled=(*session.job.settled, Settled(decision="a", state="settled")))) == ()
    assert session.job == replace(sure, settled=session.job.settled)
