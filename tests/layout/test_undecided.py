"""Choices that are this or that: how a plan holds them, and the plans that may come of them."""

from __future__ import annotations

from dataclasses import replace

from tests.rules.test_cases import given, the_book
from tundish.estimate import Job, estimate
from tundish.field import describe, get
from tundish.layout.design import RoomPlan, Undecided
from tundish.layout.undecided import MOST_TOGETHER, chosen, open_choices, others, place_of, without_row
from tundish.session import Session
from tundish.typed import taken

WALL = "survey.wall.construction"
FLOOR = "survey.floor.kind"
BOARD = "design.finish.board"


def plain() -> RoomPlan:
    return given({"room": "plain"})[0].plan


def test_a_choice_is_its_first_alternative_and_the_others_stand_beside_it() -> None:
    plan = chosen(plain(), WALL, ("timber stud", "brick", "timber stud"))
    assert plan.survey.wall.construction == "timber stud"
    assert others(plan, WALL) == ("brick",)


def test_one_value_settles_it() -> None:
    open_ = chosen(plain(), WALL, ("timber stud", "brick"))
    assert chosen(open_, WALL, ("brick",)) == replace(plain(), survey=chosen(plain(), WALL, ("brick",)).survey)


def test_all_combinations_up_to_eight_and_one_at_a_time_beyond() -> None:
    three = plain()
    for within, values in ((WALL, ("timber stud", "brick")), (FLOOR, ("chipboard on joists", "concrete"))):
        three = chosen(three, within, values)
    found = open_choices(three, the_book(), "rooms.0")
    assert found.whole
    assert set(found.plans) == {(0, 0), (0, 1), (1, 0), (1, 1)}
    assert found.plans[1, 1].survey.wall.construction == "brick"
    assert found.plans[1, 1].survey.floor.kind == "concrete"
    assert not found.plans[0, 0].undecided
    many = chosen(three, BOARD, tuple(item.code for item in the_book().of_kind("board"))[:3])
    found = open_choices(many, the_book(), "rooms.0")
    assert not found.whole
    assert len(found.plans) == 1 + 1 + 1 + 2 <= MOST_TOGETHER
    assert all(sum(pick > 0 for pick in picks) <= 1 for picks in found.plans)


def test_items_are_named_and_choices_are_their_own_words() -> None:
    codes = tuple(item.code for item in the_book().of_kind("board"))[:2]
    plan = chosen(chosen(plain(), BOARD, codes), WALL, ("timber stud", "brick"))
    board, wall = open_choices(plan, the_book(), "rooms.0").choices
    assert board.words == " or ".join(the_book().item(code).name for code in codes)
    assert (wall.words, wall.path) == ("timber stud or brick", f"rooms.0.{WALL}")


def test_what_a_file_leaves_open_and_cannot_be_is_told_and_left_out() -> None:
    rows = (
        Undecided(choice="design.appliances.9.ware", other="x"),
        Undecided(choice="survey.room.width", other="1"),
        Undecided(choice=WALL, other="straw"),
        Undecided(choice=WALL, other=plain().survey.wall.construction),
        Undecided(choice="undecided.0.choice", other="x"),
        Undecided(),
    )
    found = open_choices(replace(plain(), undecided=rows), the_book(), "rooms.0")
    assert not found.choices
    assert [each.path for each in found.problems] == [f"rooms.0.undecided.{place}" for place in range(len(rows))]


def test_at_most_four_alternatives() -> None:
    built = ("timber stud", "metal stud", "brick", "block", "concrete")
    found = open_choices(chosen(plain(), WALL, built), the_book(), "rooms.0")
    assert len(found.choices[0].values) == 4
    assert "at most 4" in found.problems[0].text


def test_rows_below_one_that_is_taken_out_move_up() -> None:
    rows = tuple(Undecided(choice=f"design.appliances.{place}.ware", other=str(place)) for place in range(3))
    left = without_row(replace(plain(), undecided=rows), "design.appliances", 1).undecided
    assert [(row.choice, row.other) for row in left] == [("design.appliances.0.ware", "0"), ("design.appliances.1.ware", "2")]


def test_at_most_twelve_choices_of_a_room_are_left_open() -> None:
    places = [
        f"design.appliances.{place}.{name}" for place in (0, 1) for name in ("outlet", "branch", "fed_from", "plate_on", "trap", "bracket")
    ]
    plan = plain()
    for within in (*places, WALL):
        options = describe(RoomPlan, within).options
        plan = chosen(plan, within, (get(plan, within), next(each for each in options if each != get(plan, within))))
    found = open_choices(plan, the_book(), "rooms.0")
    assert len(found.choices) == 12
    assert len(found.plans) == 13
    assert "at most 12" in found.problems[0].text


def test_yes_or_no_is_open_between_both_and_written_in_words() -> None:
    shelf = "design.prewall.shelf"
    plan = chosen(plain(), shelf, ("yes", "no"))
    assert (plan.design.prewall.shelf, others(plan, shelf)) == (True, ("no",))
    found = open_choices(plan, the_book(), "rooms.0")
    assert [each.words for each in found.choices] == ["yes or no"]
    assert [each.design.prewall.shelf for each in found.plans.values()] == [True, False]
    wrong = open_choices(replace(plain(), undecided=(Undecided(choice=shelf, other="perhaps"),)), the_book(), "rooms.0")
    assert "should be true or false" in wrong.problems[0].text


def test_yes_or_no_is_left_open_and_settled_as_it_is_typed() -> None:
    session, path = Session(Job(rooms=(plain(),))), "rooms.0.design.prewall.shelf"
    declared = describe(Job, path)
    assert session.set(path, taken(declared, "no or yes", None)[0]) == ()
    assert (get(session.job, path), others(session.job.rooms[0], "design.prewall.shelf")) == (False, ("yes",))
    assert estimate(session.job, the_book()).findings
    assert session.set(path, taken(declared, "yes", None)[0]) == ()
    assert (get(session.job, path), session.job.rooms[0].undecided) == (True, ())
    assert session.set(path, taken(declared, "yes or perhaps", None)[0])[0].text.startswith("Shelf on top should be true or false")


def test_when_a_photograph_was_taken_is_not_left_open() -> None:
    assert place_of("rooms.0.survey.photographs.0.of") is None
    assert place_of("rooms.0.survey.wall.construction") == ("rooms.0", "survey.wall.construction")
