"""Several pre-walls in one room: what each is called, how it is marked, and what it sees of the rest of the room."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tundish.catalogue.book import Book
from tundish.field import Entry
from tundish.layout.design import Appliance, PreWall, RoomPlan
from tundish.layout.room import Room
from tundish.layout.work_out import work_out, work_out_all
from tundish.survey.wall import Side, Wall

Hang = Callable[..., Appliance]
Planned = Callable[..., RoomPlan]
B_WALL = Side(wall=Wall(construction="timber stud", stud_centres=Entry(450), first_stud=Entry(300)))


def worked(plan: RoomPlan, book: Book, path: str = "rooms.0") -> tuple[Room, ...]:
    return work_out_all(plan, book, path)


def test_a_room_is_seen_at_each_of_its_prewalls(planned: Planned, hang: Hang, book: Book) -> None:
    further = (PreWall(wall="B", depth=Entry(180)),)
    plan = planned(hang("wc", 1200, 420), hang("basin", 900, 850, on="2"), survey__walls=(B_WALL,), design__further=further)
    one, two = worked(plan, book)
    assert one == work_out(plan, book)
    assert (one.place, one.wall, one.first, one.name, one.room_name) == (0, "A", True, "Bathroom, wall A", "Bathroom")
    assert (two.place, two.wall, two.first, two.name) == (1, "B", False, "Bathroom, wall B")
    assert [each.key for each in one.placed] == ["wc-1"]
    assert [each.key for each in two.placed] == ["basin-1"]
    assert two.width.value == 1800  # wall B is as long as the room is deep
    assert two.figures["room_depth"].value == 2000
    assert two.prewall_path == "rooms.0.design.further.0"
    assert two.behind.construction == "timber stud"
    assert two.behind_path == "rooms.0.survey.walls.0.wall"
    assert two.wall_studs == (0.0, 300.0, 750.0, 1200.0, 1650.0, 1800.0)
    assert two.depth.path == "rooms.0.design.further.0.depth"


@pytest.mark.parametrize(("path", "leads"), [("rooms.0", ("", "B.", "B2.")), ("rooms.1", ("2.", "2B.", "2B2."))])
def test_no_mark_is_given_twice_in_a_job(planned: Planned, book: Book, path: str, leads: tuple[str, ...]) -> None:
    plan = planned(design__further=(PreWall(wall="B"), PreWall(wall="B")), survey__walls=(B_WALL,))
    rooms = worked(plan, book, path)
    assert tuple(room.mark for room in rooms) == leads
    marks = [member.mark for room in rooms for member in room.members]
    assert len(set(marks)) == len(marks)
    ties = [member.where for member in rooms[1].members if member.what == "wall tie"]
    assert ties
    assert all(where.startswith(f"at {leads[1]}U") for where in ties)
    assert f"{leads[1]}U1.from_left" in rooms[1].figures
    assert [room.name for room in rooms] == ["Bathroom, wall A", "Bathroom, wall B", "Bathroom, wall B (2)"]


@pytest.mark.parametrize(
    ("wall", "stack_wall", "seen"), [("B", "A", -1850), ("A", "B", 2150), ("D", "A", 1950), ("C", "A", 3950), ("A", "D", -1650)]
)
def test_the_stack_is_reckoned_along_the_walls_the_shorter_way_round(
    planned: Planned, book: Book, wall: str, stack_wall: str, seen: float
) -> None:
    """Two metres by 1,800; the stack 150 from the left end of its wall."""
    room = work_out(planned(design__prewall__wall=wall, survey__stack__wall=stack_wall), book)
    assert room.figures["stack"].value == seen


def test_supplies_are_reckoned_along_the_walls_too(planned: Planned, book: Book) -> None:
    room = work_out(planned(design__prewall__wall="B"), book)
    assert (room.figures["hot"].value, room.figures["cold"].value) == (350 - 2000, 300 - 2000)
    assert room.folds == (-3800.0, -2000.0, 0.0, 1800.0, 3800.0, 5600.0)


@pytest.mark.parametrize(
    ("changes", "path"),
    [
        ({"design__prewall__wall": "F"}, "design.prewall.wall"),
        ({"survey__stack__wall": "G"}, "survey.stack.wall"),
        ({"survey__water__wall": "G"}, "survey.water.wall"),
        ({"design__further": (PreWall(wall="B"),)}, "survey.walls"),
    ],
)
def test_a_wall_that_there_is_not_is_told_and_wall_a_taken(planned: Planned, book: Book, changes: dict[str, object], path: str) -> None:
    rooms = worked(planned(**changes), book)
    assert {problem.path for room in rooms for problem in room.problems} == {f"rooms.0.{path}"}


def test_an_appliance_on_a_prewall_that_there_is_not_is_put_on_the_first(planned: Planned, hang: Hang, book: Book) -> None:
    room = work_out(planned(hang("wc", 1200, 420, on="3")), book)
    assert [each.key for each in room.placed] == ["wc-1"]
    assert [problem.path for problem in room.problems] == ["rooms.0.design.appliances.0.on"]


def test_a_prewall_is_called_as_it_was_named(planned: Planned, book: Book) -> None:
    rooms = worked(planned(design__further=(PreWall(name="boxing"),)), book)
    assert [room.name for room in rooms] == ["Bathroom, wall A", "Bathroom, boxing"]
