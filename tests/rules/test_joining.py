"""Nothing that joins can be left out of a demonstration job without the check of open ends noticing, and nothing in it joins nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from typing import Any

import pytest

from tests.rules.test_cases import given
from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.catalogue.load import supplied_book
from tundish.layout.design import BY_VALVE
from tundish.layout.room import Room
from tundish.layout.work_out import work_out_all
from tundish.rules.ends.joined import ends_joined
from tundish.rules.joining import item_of, joined_up
from tundish.rules.rule import Asked, Finding, Need
from tundish.store.keep import demo_jobs
from tundish.takeoff.run import run_room

CHOSEN = ("wc pan", "basin", "bidet", "urinal", "tap", "wc frame", "basin frame", "bidet frame", "urinal frame")
"""What is chosen by name; without it in the catalogue the room cannot be worked out."""


@lru_cache(maxsize=1)
def the_book() -> Book:
    return supplied_book()


@lru_cache(maxsize=1)
def taken() -> dict[str, tuple[Room, tuple[Need, ...]]]:
    """Every pre-wall of the demonstration jobs with all that is on its list."""
    rooms = (
        (f"{job.number} {room.name}", room)
        for job in demo_jobs()
        for place, plan in enumerate(job.rooms)
        for room in work_out_all(plan, the_book(), f"rooms.{place}")
    )
    return {name: (room, run_room(room, the_book()).needs) for name, room in rooms}


@lru_cache(maxsize=1)
def vented() -> dict[str, tuple[Room, tuple[Need, ...]]]:
    """Rooms with a valve of its own on every discharge, of each size that there is, to an old stack of either kind."""
    rooms = {}
    for iron in ("plastic 110", "cast iron 100"):
        changes = {f"design.appliances.{place}.vented": BY_VALVE for place in range(4)}
        room, _ = given({"room": "row", "set": {"survey.stack.pipe": iron, "survey.stack.from_left": 200, **changes}})
        rooms[iron] = room, run_room(room, the_book()).needs
    return rooms


def in_vents(name: str) -> list[str]:
    """The items of its vents, by code."""
    found = (item_of(need, the_book()) for need in vented()[name][1] if need.why.startswith("vent of") or "tee" in need.role)
    return sorted({item.code for item in found if item and item.ends and item.kind != "water fitting"})


def joins(room: str) -> Iterator[Item]:
    """What on the list of a room joins; a plug joins nothing."""
    found = (item_of(need, the_book()) for need in taken()[room][1])
    yield from {item.code: item for item in found if item and len(item.ends) > 1}.values()


def parts() -> Iterator[Any]:
    for name in taken():
        for item in joins(name):
            yield pytest.param(name, item.code, id=f"{name}-{item.code}")


def open_ends(room: Room, needs: tuple[Need, ...], book: Book) -> list[Finding]:
    said = ends_joined.says(Asked(room, needs), book)
    return [one for one in said if isinstance(one, Finding) and one.state != "passes"]


def same_ends(one: Item, other: Item) -> bool:
    return {(end.system, end.nominal, end.gender) for end in one.ends} == {(end.system, end.nominal, end.gender) for end in other.ends}


@pytest.mark.parametrize("name", taken())
def test_every_end_of_a_demonstration_job_is_joined(name: str) -> None:
    room, needs = taken()[name]
    assert open_ends(room, needs, the_book()) == []


@pytest.mark.parametrize("name", taken())
def test_nothing_on_its_list_joins_nothing(name: str) -> None:
    room, needs = taken()[name]
    _, pools = joined_up(room, needs, the_book())
    ware = {code for code, whose in pools.claimed.items() if whose}
    over = {code for pool in pools.by.values() for code, count in pool.items() if count > 0 and the_book().item(code).unit == "each"}
    over -= {code for code in over if len(the_book().item(code).ends) == 1}
    assert over - ware == set()


@pytest.mark.parametrize(("name", "code"), list(parts()))
def test_a_part_left_off_the_list_is_noticed_and_named(name: str, code: str) -> None:
    """Named: it, or one with the same ends, is what a way out puts on the list."""
    room, needs = taken()[name]
    left = next(item for item in joins(name) if item.code == code)
    found = open_ends(room, tuple(need for need in needs if item_of(need, the_book()) is not left), the_book())
    assert found
    offered = [the_book().item(each) for one in found for way in one.ways_out for each, _ in way.adds]
    assert any(each is left or same_ends(each, left) for each in offered)
    assert all(one.message for one in found)


@pytest.mark.parametrize(("name", "code"), list(parts()))
def test_one_too_few_is_noticed(name: str, code: str) -> None:
    """Of what is counted; pipe is there or not."""
    room, needs = taken()[name]
    at = [place for place, need in enumerate(needs) if (item := item_of(need, the_book())) and item.code == code and item.unit == "each"]
    for place in at[-1:]:
        fewer = replace(needs[place], amount=replace(needs[place].amount, value=needs[place].amount.value - 1))
        assert open_ends(room, (*needs[:place], fewer, *needs[place + 1 :]), the_book())


@pytest.mark.parametrize(("name", "code"), [each for each in parts() if the_book().item(str(each.values[1])).kind not in CHOSEN])
def test_a_part_the_catalogue_has_not_is_noticed(name: str, code: str) -> None:
    room, _ = taken()[name]
    book = replace(the_book(), items={key: item for key, item in the_book().items.items() if key != code})
    take = run_room(room, book)
    assert [one for one in take.findings if one.rule == ends_joined.key and one.state != "passes"]
    assert any(code in problem.text for problem in take.problems)


@pytest.mark.parametrize("code", ["waste-bend-32", "elbow-15", "soil-slip-110", "wall-plate-15"])
def test_what_usually_turns_or_slides_does_so_though_its_sheet_does_not_say(code: str) -> None:
    """As a trader may have typed an item of his own."""
    room, needs = taken()["101 Cloakroom"]
    plain = replace(the_book().item(code), sizes={})
    book = replace(the_book(), items={**the_book().items, code: plain})
    assert open_ends(room, needs, book) == []
    found = open_ends(room, tuple(need for need in needs if item_of(need, book) is not plain), book)
    assert any(code in dict(way.adds) for one in found for way in one.ways_out)


@pytest.mark.parametrize(("code", "ends"), [("waste-bend-32", 0), ("soil-branch-110", 2), ("tee-15", 1), ("wall-plate-15", 0)])
def test_an_item_whose_sheet_lacks_its_ends_is_as_if_it_were_not_on_the_list(code: str, ends: int) -> None:
    room, needs = taken()["101 Cloakroom"]
    item = the_book().item(code)
    book = replace(the_book(), items={**the_book().items, code: replace(item, ends=item.ends[:ends])})
    assert any("is not on the list" in one.message for one in open_ends(room, needs, book))


@pytest.mark.parametrize("name", ["plastic 110", "cast iron 100"])
def test_a_vent_is_joined_from_the_side_of_its_tee_to_its_valve(name: str) -> None:
    room, needs = vented()[name]
    assert {run.size for run in room.pipes_of("soil", "waste")} == {110, 50, 40, 32}
    assert open_ends(room, needs, the_book()) == []
    joined, _ = joined_up(room, needs, the_book())
    vents = {each.course.place: each for each in joined if each.course.what == "vent"}
    assert set(vents) == {one.name for one in room.placed}
    assert all(each.joints > 1 for each in vents.values())
    assert {each.course.goal.end.nominal for each in vents.values()} == {"110", "40"}


@pytest.mark.parametrize("name", ["plastic 110", "cast iron 100"])
def test_no_part_of_a_vent_can_be_left_out_unnoticed(name: str) -> None:
    """Neither all of one item nor, of what is counted, one of it; valve, tee, reducer and the pipe between them."""
    room, needs = vented()[name]
    codes = in_vents(name)
    assert {"aav-110", "aav-40", "waste-tee-32", "waste-tee-40", "waste-tee-50", "waste-reducer-50-40"} <= set(codes)
    for code in codes:
        item = the_book().item(code)
        found = open_ends(room, tuple(need for need in needs if item_of(need, the_book()) is not item), the_book())
        offered = {each for one in found for way in one.ways_out for each, _ in way.adds}
        assert code in offered or any(same_ends(item, the_book().item(each)) for each in offered), code
        last = max(place for place, need in enumerate(needs) if item_of(need, the_book()) is item)
        if item.unit == "each":
            fewer = replace(needs[last], amount=replace(needs[last].amount, value=needs[last].amount.value - 1))
            assert open_ends(room, (*needs[:last], fewer, *needs[last + 1 :]), the_book()), code


def test_the_pipe_up_to_a_valve_is_asked_for_though_its_branch_has_pipe() -> None:
    room, needs = vented()["plastic 110"]
    without = tuple(need for need in needs if not (need.role == "soil pipe 110" and need.why == "vent of WC 1"))
    assert len(without) < len(needs)
    (gap,) = open_ends(room, without, the_book())
    assert "soil-pipe-110" in dict(gap.ways_out[0].adds)


@pytest.mark.parametrize("code", ["aav-40", "waste-tee-32"])
def test_a_valve_or_tee_that_the_catalogue_has_not_is_an_open_end(code: str) -> None:
    room, _ = vented()["plastic 110"]
    book = replace(the_book(), items={key: item for key, item in the_book().items.items() if key != code})
    take = run_room(room, book)
    assert [one for one in take.findings if one.rule == ends_joined.key and one.title.startswith("Open end, vent")]


@lru_cache(maxsize=1)
def opposite() -> dict[str, tuple[Room, tuple[Need, ...]]]:
    """Two WCs with the stack between them, in plastic and in iron."""
    second = {"kind": "wc", "name": "WC 2", "centre": 1700, "top": 420, "ware": "pan-ondel-530", "frame": "frame-wc-1120"}
    rooms = {}
    for iron in ("plastic 110", "cast iron 100"):
        room, _ = given({
            "room": "plain",
            "set": {"survey.stack.pipe": iron, "survey.stack.from_left": 1200, "design.appliances.1": second},
        })  # fmt: skip
        rooms[iron] = room, run_room(room, the_book()).needs
    return rooms


@pytest.mark.parametrize("name", ["plastic 110", "cast iron 100"])
def test_two_branches_opposite_one_another_are_joined_by_one_double_branch(name: str) -> None:
    room, needs = opposite()[name]
    assert open_ends(room, needs, the_book()) == []
    _, pools = joined_up(room, needs, the_book())
    assert pools.listed["soil-branch-110-double-swept"] == 1
    left = {code: count for pool in pools.by.values() for code, count in pool.items() if the_book().item(code).kind == "soil fitting"}
    assert set(left.values()) <= {0}, left


@pytest.mark.parametrize("name", ["plastic 110", "cast iron 100"])
def test_no_part_of_what_lets_in_two_can_be_left_out_unnoticed(name: str) -> None:
    """The double branch is missed by both; of what each has one, either."""
    room, needs = opposite()[name]
    without = open_ends(room, tuple(need for need in needs if need.role != "soil branch double 110"), the_book())
    assert {one.place for one in without} == {"WC 1", "WC 2"}
    assert all("soil-branch-110-double-swept" in dict(way.adds) for one in without for way in one.ways_out)
    for place, need in enumerate(needs):
        item = item_of(need, the_book())
        if item is not None and item.kind in {"soil fitting", "coupling"} and item.unit == "each":
            fewer = replace(need, amount=replace(need.amount, value=need.amount.value - 1))
            assert open_ends(room, (*needs[:place], fewer, *needs[place + 1 :]), the_book()), need


def test_a_single_branch_in_place_of_the_double_leaves_the_second_pan_open() -> None:
    """Let in by hand: it takes the first, and what the second was to go into is not there."""
    room, needs = opposite()["plastic 110"]
    single = tuple(replace(need, role="soil branch 110") if need.role == "soil branch double 110" else need for need in needs)
    (gap,) = open_ends(room, single, the_book())
    assert gap.place == "WC 2"
    assert "double, swept" in gap.message


def test_a_swept_entry_left_off_is_asked_for_as_such() -> None:
    """Where only swept entries carry the flow by the rule set chosen."""
    room, _ = given({"room": "plain", "set": {"survey.stack.others": 98, "design.piping.drains_by": "EN 12056-2, system I"}})
    needs = run_room(room, the_book()).needs
    assert open_ends(room, needs, the_book()) == []
    (gap,) = open_ends(room, tuple(need for need in needs if need.role != "soil branch swept 110"), the_book())
    assert "soil-branch-110-swept" in dict(gap.ways_out[0].adds)
