"""A room with choices still open: ranges that hold whatever is chosen, verdicts that tell the truth, words for the rest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import product

import pytest
from hypothesis import given as given_by
from hypothesis import settings
from hypothesis import strategies as st

from tests.rules.test_cases import given, the_book
from tundish.errors import NotWantedError
from tundish.field import Entry, put
from tundish.figure import Figure, rests_on, worked_again
from tundish.layout.design import RoomPlan
from tundish.layout.room import Room
from tundish.layout.undecided import chosen
from tundish.layout.work_out import work_out_all
from tundish.rules.rule import Finding
from tundish.takeoff.alternatives import taken_off
from tundish.takeoff.run import RoomTake, run_room

WALL, FLOOR, BOARD, TILE = "survey.wall.construction", "survey.floor.kind", "design.finish.board", "design.finish.tile"
BUILT = "design.prewall.built_of"


def plain() -> RoomPlan:
    return given({"room": "plain"})[0].plan


def opened(plan: RoomPlan) -> tuple[Room, RoomTake]:
    return taken_off(plan, the_book(), "rooms.0")[0]


def closed(plan: RoomPlan, choices: Sequence[tuple[str, str]]) -> tuple[Room, RoomTake]:
    for within, value in choices:
        plan = put(plan, within, value)
    return worked(replace(plan, undecided=()))


@lru_cache(maxsize=256)
def worked(plan: RoomPlan) -> tuple[Room, RoomTake]:
    room = work_out_all(plan, the_book(), "rooms.0")[0]
    return room, run_room(room, the_book())


def spans(shown: Figure, exact: Figure) -> bool:
    return shown.low - 1e-6 <= exact.low and exact.high <= shown.high + 1e-6


def items(kind: str) -> tuple[str, ...]:
    return tuple(item.code for item in the_book().of_kind(kind))


OPEN = st.fixed_dictionaries(
    {},
    optional={
        WALL: st.lists(st.sampled_from(("timber stud", "metal stud", "brick", "block", "concrete")), min_size=2, max_size=3, unique=True),
        FLOOR: st.lists(st.sampled_from(("chipboard on joists", "screed", "concrete")), min_size=2, max_size=2, unique=True),
        BOARD: st.lists(st.sampled_from(items("board")), min_size=2, max_size=2, unique=True),
        TILE: st.lists(st.sampled_from(items("tile")), min_size=2, max_size=4, unique=True),
        BUILT: st.lists(st.sampled_from(("steel", "timber", "self-standing")), min_size=2, max_size=2, unique=True),
    },
)


@settings(deadline=None, max_examples=25)
@given_by(OPEN, st.sampled_from([Entry(225), Entry(225, low=215, high=240, tbc=True)]))
def test_every_alternative_lies_in_what_is_shown_and_every_verdict_holds_for_it(open_: dict[str, list[str]], depth: Entry) -> None:
    plan = put(plain(), "design.prewall.depth", depth)
    for within, values in open_.items():
        plan = chosen(plan, within, values)
    room, take = opened(plan)
    whole = len(list(product(*open_.values()))) <= 8
    for picks in product(*open_.values()):
        choices = tuple(zip(open_, picks, strict=True))
        if whole or sum(value != open_[within][0] for within, value in choices) <= 1:
            one, taken = closed(plan, choices)
            figures_lie_within(room, one)
            amounts_lie_within(take, taken)
            verdicts_hold(take, taken)


def figures_lie_within(room: Room, one: Room) -> None:
    for name, figure in room.figures.items():
        if name in one.figures and one.figures[name].label == figure.label:
            assert spans(figure, one.figures[name]), name


def amounts_lie_within(take: RoomTake, taken: RoomTake) -> None:
    amounts = {line.item.code: line.amount for line in take.lines}
    pieces = {(line.item.code, cut.mark, cut.what): cut.length for line in take.lines for cut in line.cuts}
    for line in taken.lines:
        if line.item.code in amounts:
            assert spans(amounts[line.item.code], line.amount), line.item.code
        for cut in line.cuts:
            if (line.item.code, cut.mark, cut.what) in pieces:
                assert spans(pieces[line.item.code, cut.mark, cut.what], cut.length), cut.mark


def verdicts_hold(take: RoomTake, taken: RoomTake) -> None:
    shown = {(each.rule, each.title, each.place): each for each in take.findings}
    for each in taken.findings:
        told = shown.get((each.rule, each.title, each.place))
        if told is None:
            assert each.state == "passes" or any(one.rule == each.rule and one.place == each.place for one in take.findings)
        elif told.verdict == "always":
            assert each.state == "passes", (each.title, each.place)
        elif told.verdict == "never":
            assert each.state != "passes", (each.title, each.place)


def test_the_first_alternative_is_what_is_listed() -> None:
    room, take = opened(chosen(chosen(plain(), WALL, ("timber stud", "brick")), TILE, items("tile")[:2]))
    one, taken = closed(plain(), ((WALL, "timber stud"), (TILE, items("tile")[0])))
    assert {name: figure.value for name, figure in room.figures.items()} == {name: each.value for name, each in one.figures.items()}
    assert [(line.item.code, line.amount.value) for line in take.lines] == [(line.item.code, line.amount.value) for line in taken.lines]
    assert [member.mark for member in room.members] == [member.mark for member in one.members]


def test_a_figure_says_how_far_the_choice_takes_it_and_still_adds_up() -> None:
    room, _ = opened(chosen(plain(), WALL, ("timber stud", "brick")))
    one, _ = closed(plain(), ((WALL, "timber stud"),))
    other, _ = closed(plain(), ((WALL, "brick"),))
    reach, apart = room.figures["wc-1.reach"], other.figures["wc-1.reach"].value - one.figures["wc-1.reach"].value
    assert apart != 0
    assert (reach.low, reach.high) == (min(reach.value, reach.value + apart), max(reach.value, reach.value + apart))
    assert worked_again(reach) == reach.value
    leaf = next(each for each in rests_on(reach, only_open=True) if each.path == f"rooms.0.{WALL}")
    assert (leaf.label, leaf.note, leaf.value) == ("Construction", "timber stud or brick", 0)
    assert reach.tbc


def test_what_no_choice_moves_stays_the_very_figure() -> None:
    room, _ = opened(chosen(plain(), WALL, ("timber stud", "brick")))
    one, _ = closed(plain(), ((WALL, "timber stud"),))
    assert room.figures["wc-1.studs"] == one.figures["wc-1.studs"]


def test_a_room_without_open_choices_is_worked_out_once() -> None:
    room, take = opened(plain())
    one, taken = closed(plain(), ())
    assert (room, take) == (one, taken)
    assert take.otherwise == ()


def reach(depth: float) -> Finding:
    plan = chosen(put(plain(), "design.prewall.depth", Entry(depth)), WALL, ("timber stud", "brick"))
    return next(each for each in opened(plan)[1].findings if each.title == "Tie rod reach")


def alone(depth: float, wall: str) -> str:
    plan = put(plain(), "design.prewall.depth", Entry(depth))
    return next(each for each in closed(plan, ((WALL, wall),))[1].findings if each.title == "Tie rod reach").state


def test_a_check_that_passes_with_either() -> None:
    assert (alone(225, "timber stud"), alone(225, "brick")) == ("passes", "passes")
    assert reach(225).verdict == "always"
    assert reach(225).verdict_words == "passes whatever is decided"


def test_a_check_that_fails_with_either() -> None:
    assert "passes" not in (alone(700, "timber stud"), alone(700, "brick"))
    assert reach(700).verdict == "never"
    assert reach(700).verdict_words.endswith("whatever is decided")


def test_a_check_that_turns_on_the_choice_says_so_in_verdict_and_message() -> None:
    depth = next(float(each) for each in range(225, 700, 10) if alone(each, "timber stud") != alone(each, "brick"))
    finding = reach(depth)
    assert finding.verdict_words == "depends on: Construction"
    assert [each.path for each in finding.depends_on] == [f"rooms.0.{WALL}"]
    states = {wall: alone(depth, wall) for wall in ("timber stud", "brick")}
    words = {"passes": "passes", "fails": "fails", "look": "to be looked at"}
    assert (
        f"Depends on Construction: {words[states['timber stud']]} with timber stud, {words[states['brick']]} with brick." in finding.message
    )
    assert finding.tbc


def test_a_check_that_only_another_alternative_fails_is_there_to_look_at() -> None:
    plan = plain()
    for first, other in (("steel", "timber"), ("timber", "steel"), ("steel", "self-standing"), ("self-standing", "steel")):
        _, before = closed(plan, ((BUILT, first),))
        _, after = closed(plan, ((BUILT, other),))
        keys = {(each.rule, each.place) for each in before.findings}
        _, take = opened(chosen(plan, BUILT, (first, other)))
        for each in after.findings:
            if each.state in {"fails", "look"} and (each.rule, each.place) not in keys:
                told = next(one for one in take.findings if (one.rule, one.title, one.place) == (each.rule, each.title, each.place))
                assert told.state == "look"
                assert told.verdict == "depends"
                assert f"with {other}" in told.message


def test_what_is_there_with_one_alternative_alone_is_said_in_words() -> None:
    _, take = opened(chosen(plain(), WALL, ("timber stud", "brick")))
    (otherwise,) = take.otherwise
    assert otherwise.choice.note == "timber stud or brick"
    (words,) = otherwise.words
    one, other = closed(plain(), ((WALL, "timber stud"),)), closed(plain(), ((WALL, "brick"),))
    gone = [member.mark for member in one[0].members if member.mark not in {each.mark for each in other[0].members}]
    for mark in gone:
        assert mark in words
    new = {line.item.name for line in other[1].lines} - {line.item.name for line in one[1].lines}
    for name in new:
        assert name in words
    assert otherwise.stages


def test_trouble_with_another_alternative_is_told_at_the_choice() -> None:
    _, take_of = opened(plain()), chosen(plain(), TILE, (plain().design.finish.tile, "gone"))
    room, _ = opened(take_of)
    told = [each for each in room.problems if each.path == f"rooms.0.{TILE}"]
    assert told
    assert told[0].text.startswith("With gone: ")


@pytest.mark.parametrize("other", ["bidet", "basin", "urinal"])
def test_another_kind_of_appliance_may_be_left_open(other: str) -> None:
    plan = chosen(plain(), "design.appliances.0.kind", (plain().design.appliances[0].kind, other))
    room, take = opened(plan)
    assert room.plan is plan
    assert take.otherwise[0].words


def test_a_check_that_another_alternative_does_not_ask_for_says_so() -> None:
    plan = put(plain(), "design.prewall.depth", Entry(700))
    _, take = opened(chosen(plan, "design.appliances.0.frame", (plan.design.appliances[0].frame, "")))
    finding = next(each for each in take.findings if each.title == "Tie rod reach" and each.place.endswith("WC 1"))
    assert finding.verdict == "depends"
    assert "not asked for with none." in finding.message


def test_a_working_that_is_not_wanted_any_more_is_left_before_its_next_plan() -> None:
    plan = chosen(plain(), WALL, ("timber stud", "brick"))
    asked: list[int] = []

    def wanted() -> bool:
        asked.append(len(asked))
        return len(asked) < 2

    with pytest.raises(NotWantedError):
        taken_off(plan, the_book(), "rooms.0", wanted)
    assert asked == [0, 1]
