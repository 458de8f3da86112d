"""Rooms that cannot be, through the whole flow: each is named in words that mend it, nothing typed is lost, and every paper is drawn."""

from __future__ import annotations

from copy import deepcopy
from typing import Any, Final

import pytest

from tundish.catalogue.load import supplied_book
from tundish.documents.drawing import Dimension, Words
from tundish.documents.index import build_all
from tundish.documents.plan_drawing import strip, whole_room
from tundish.documents.survey_sketch import follow
from tundish.documents.wall_drawing import elevation
from tundish.estimate import Estimate, Job, estimate
from tundish.plain import from_plain, to_plain
from tundish.store.keep import demo_jobs
from tundish.writers.text import as_text

BOOK: Final = supplied_book()
CLOAKROOM: Final = to_plain(next(job for job in demo_jobs() if job.number == "101"))
CROSSED: Final = tuple(
    {"length": each, "corner": corner} for each, corner in ((2000, 90), (1000, 90), (3000, 90), (2000, 270), (1000, 270))
)
"""Walls that come back through the first one, and close."""


def typed(changes: dict[str, Any]) -> dict[str, Any]:
    """The cloakroom's job file with other values, by path."""
    file: dict[str, Any] = deepcopy(CLOAKROOM)
    for path, value in changes.items():
        *above, last = path.split(".")
        here: Any = file
        for word in above:
            here = here[int(word)] if word.isdigit() else here.setdefault(word, {})
        here[int(last) if last.isdigit() else last] = value
    return file


def worked_out(changes: dict[str, Any]) -> Estimate:
    """What comes of it; everything typed must still be in the job, and every paper can be read."""
    file = typed(changes)
    job, problems, unknown = from_plain(Job, file)
    assert job is not None, problems
    assert not unknown
    assert from_plain(Job, to_plain(job))[0] == job
    worked = estimate(job, BOOK)
    assert all(as_text(paper) for paper in build_all(worked))
    return worked


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        ("survey.room.width", 0, "0 mm is under the least, 300 mm"),
        ("survey.room.width", -1200, "−1,200 mm is under the least, 300 mm"),
        ("survey.room.width", 40_001, "40,001 mm is over the most, 40,000 mm"),
        ("survey.room.height", float("nan"), "number"),
        ("survey.walls", [{"length": -5}], "is under the least"),
        ("survey.floor.build_up", [{"what": "Screed", "thickness": -1}], "is under the least"),
    ],
)
def test_a_length_that_cannot_be_is_refused_by_name_and_nothing_is_half_read(path: str, value: object, said: str) -> None:
    job, problems, _ = from_plain(Job, typed({f"rooms.0.{path}": value}))
    assert job is None
    assert [problem.path.startswith(f"rooms.0.{path}") for problem in problems] == [True]
    assert said in problems[0].text


@pytest.mark.parametrize(
    ("changes", "path", "said"),
    [
        ({"survey.room.width": 3000, "survey.walls": list(CROSSED)}, "rooms.0.survey.walls", "Walls A and D cross: measure them"),
        ({"survey.walls": [{"length": 1000, "corner": 45}, {"length": 3000, "corner": 20}]}, "rooms.0.survey.walls", "do not close"),
        ({"survey.room.width": 300}, "rooms.0.design.appliances.0.frame", "its frame is 500 wide, the pre-wall 300"),
    ],
)
def test_a_room_that_cannot_be_drawn_says_what_is_wrong(changes: dict[str, Any], path: str, said: str) -> None:
    worked = worked_out({f"rooms.0.{name}": value for name, value in changes.items()})
    assert [each.text for each in worked.problems if each.path == path and said in each.text]


@pytest.mark.parametrize(
    ("changes", "title", "said"),
    [
        ({"design.prewall.depth": 60}, "Frame depth setting", "Set the pre-wall 135 deep"),
        ({"survey.stack.branch_invert": 900}, "Fall of WC branch", "water does not run up. Raise the pan by 713 or lower the entry"),
        ({"survey.floor.build_up": [{"what": "Screed", "thickness": 300}]}, "Frame feet", "It stands on 108 of ply packers"),
    ],
)
def test_what_does_not_fit_is_found_with_the_way_out(changes: dict[str, Any], title: str, said: str) -> None:
    worked = worked_out({f"rooms.0.{name}": value for name, value in changes.items()})
    found = [each for each in worked.findings if each.state in {"fails", "look"} and each.title.startswith(title)]
    assert found
    assert said in found[0].message


def test_a_wall_of_forty_metres_is_built_of_bars_that_can_be_bought() -> None:
    worked = worked_out({"rooms.0.survey.room.width": 40_000})
    room = worked.rooms[0]
    rails = [each for each in room.members if each.mark.startswith("T")]
    assert not worked.problems
    assert len(rails) > 1
    assert sum(each.length.value for each in rails) == pytest.approx(40_000, abs=50)
    assert max(each.length.value for each in rails) <= 6_000


@pytest.mark.parametrize("depth", [300, 413, 500])
def test_an_entry_that_may_be_behind_the_pre_wall_or_before_it_is_worked_out(depth: int) -> None:
    """Its distance from the wall is still open over more than the pre-wall is deep."""
    entry = {"size": "110", "from_left": 1150, "from_wall": {"value": 700, "low": 0, "high": 900, "tbc": True}, "invert": 0}
    worked = worked_out({"rooms.0.design.prewall.depth": depth, "rooms.0.survey.entries": [entry]})
    assert [each.to for each in worked.rooms[0].instead if each.kind == "waste"] == ["Entry 1"]


PUT: Final[dict[str, tuple[dict[str, Any], str, str]]] = {
    "a bath longer than what is left of its wall": (
        {"survey.obstacles": [{"what": "bath", "wall": "C", "from_left": 1000, "width": 1700, "depth": 700}]},
        "survey.obstacles.0.from_left",
        "The bath ends 2,700 along wall C, which is 1,450 long",
    ),
    "a bath deeper than the room": (
        {"survey.obstacles": [{"what": "bath", "wall": "B", "from_left": 0, "width": 600, "depth": 5000}]},
        "survey.obstacles.0.depth",
        "The bath comes 5,000 out of wall B, and the room ends at 1,450",
    ),
    "a stack round the corner": (
        {"survey.stack.from_left": 5000},
        "survey.stack.from_left",
        "The stack is 5,000 along wall A, which is 1,450",
    ),
    "a stack outside": (
        {"survey.stack.from_wall": 1900},
        "survey.stack.from_wall",
        "The stack comes 1,900 out of wall A, and the room ends at",
    ),
    "an entry off its wall": (
        {"survey.entries": [{"name": "Old boss", "wall": "B", "from_left": 4000, "invert": 50}]},
        "survey.entries.0.from_left",
        "The Old boss is 4,000 along wall B",
    ),
    "cold off its wall": ({"survey.water.cold_from_left": 9000}, "survey.water.cold_from_left", "The cold pipe is 9,000 along wall A"),
    "a socket off its wall": (
        {"survey.electrics": [{"what": "socket", "wall": "A", "from_left": 9000}]},
        "survey.electrics.0.from_left",
        "The socket is 9,000 along wall A",
    ),
    "a soffit over the ceiling": (
        {"survey.slopes": [{"at_wall": 5000}]},
        "survey.slopes.0.at_wall",
        "is 5,000 high at its wall, the room 2,310",
    ),
    "a door in a window": (
        {
            "survey.openings": [
                {"kind": kind, "wall": "C", "from_left": left, "width": 600} for kind, left in (("window", 100), ("door", 300))
            ]
        },
        "survey.openings.1.from_left",
        "The door in wall C is where a window is, from 100 to 700",
    ),
    "a window through the ceiling": (
        {"survey.openings": [{"kind": "window", "wall": "C", "from_left": 100, "width": 600, "sill": 1500, "height": 900}]},
        "survey.openings.0.height",
        "The window ends 2,400 above the floor, the room is 2,310 high",
    ),
}


@pytest.mark.parametrize("case", list(PUT))
def test_what_is_put_where_it_cannot_be_is_named_once(case: str) -> None:
    changes, path, said = PUT[case]
    worked = worked_out({f"rooms.0.{name}": value for name, value in changes.items()})
    (problem,) = worked.problems
    assert problem.path == f"rooms.0.{path}"
    assert said in problem.text
    assert problem.text.endswith("again")


def test_openings_above_one_another_or_side_by_side_are_no_trouble() -> None:
    doors = [{"kind": "door", "wall": "C", "from_left": left, "width": 600} for left in (50, 650)]
    above = [{"kind": "window", "wall": "B", "from_left": 100, "width": 600, "sill": sill, "height": 600} for sill in (0, 600)]
    assert not worked_out({"rooms.0.survey.openings": [*doors, *above]}).problems


THINGS: Final = {
    "survey.openings": [{"kind": "window", "wall": "E", "from_left": 200, "width": 600, "height": 900, "sill": 1100}],
    "survey.obstacles": [{"what": "radiator", "wall": "D", "from_left": 300, "width": 800, "depth": 100}],
    "survey.electrics": [{"what": "socket", "wall": "C", "from_left": 450}],
    "survey.slopes": [{"kind": "beam", "wall": "F", "at_wall": 2000, "reach": 300}],
    "survey.entries": [{"name": "Old boss", "wall": "E", "from_left": 500, "invert": 100}],
}


def test_what_is_at_the_walls_of_a_room_that_makes_none_stays_at_its_own_wall() -> None:
    changes = {"survey.room.width": 3000, "survey.walls": list(CROSSED), "design.prewall.wall": "D", "survey.stack.wall": "D", **THINGS}
    worked = worked_out({f"rooms.0.{name}": value for name, value in changes.items()})
    assert [each.path for each in worked.problems] == ["rooms.0.survey.walls"]
    (room,) = worked.rooms
    assert (room.wall, room.width.value) == ("D", 3000)
    along = {thing.what: min(x for x, _ in thing.shape) for thing in room.around.things}
    assert along == {"obstacle": 300, "window": 3000 + 200, "electric": -1000 + 450 - 10}
    assert min(x for x, _ in room.around.unders[0].shape) == 3000 + 2000
    assert [each.from_left.value for each in room.outfalls] == [room.plan.survey.stack.from_left.value, 3000 + 500]  # type: ignore[union-attr]
    assert not [each for each in worked.findings if each.title == "Clear floor in front"]
    plan = whole_room(room)
    assert not [mark for mark in plan.marks if isinstance(mark, Dimension)]
    assert {mark.text for mark in plan.marks if isinstance(mark, Words)} >= set("ABCDEF")


def test_what_is_at_a_wall_that_there_is_not_is_named_and_left_out() -> None:
    named = {f"{path}": [{**row, "wall": "K"} for row in rows] for path, rows in THINGS.items()}
    changes = {"survey.stack.wall": "K", "survey.water.wall": "K", **named}
    worked = worked_out({f"rooms.0.{name}": value for name, value in changes.items()})
    (room,) = worked.rooms
    assert {each.path for each in worked.problems} == {
        *(f"rooms.0.{path}.0.wall" for path in THINGS),
        "rooms.0.survey.stack.wall",
        "rooms.0.survey.water.wall",
    }
    assert all("The room has no wall K: choose one of A, B, C, D" in each.text for each in worked.problems)
    assert not room.around.things
    assert not room.around.unders
    assert [each.name for each in room.outfalls] == [""]
    drawn = [
        mark
        for drawing in (elevation(room), strip(room), whole_room(room), follow(room, "survey.stack.from_left"))
        for mark in drawing.marks
    ]
    assert not [mark for mark in drawn if getattr(mark, "piece", "") == "stack"]
    assert not [mark for mark in drawn if isinstance(mark, Words) and mark.text in {"window", "radiator", "socket"}]
