"""Where a pre-wall starts and ends in a room 2,000 wide."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tundish.field import Entry
from tundish.layout.room import Room

Work = Callable[..., Room]


@pytest.mark.parametrize(
    ("start", "run", "length", "at_wall"),
    [
        (0, None, 2000, (True, True)),
        (300, None, 1700, (False, True)),
        (0, 1500, 1500, (True, False)),
        (300, 1000, 1000, (False, False)),
        (0, 1999, 1999, (True, True)),  # within a millimetre of the wall it stands at it
        (0, 2500, 2500, (True, True)),  # longer than the room: a check tells, the sums go on
    ],
)
def test_run_and_ends(work: Work, start: float, run: float | None, length: float, at_wall: tuple[bool, bool]) -> None:
    room = work(design__prewall__from_left=start, design__prewall__run=run)
    assert (room.start.value, room.run.value, room.at_wall) == (start, length, at_wall)


def test_a_width_still_open_is_the_run_s_too(work: Work) -> None:
    room = work(survey__room__width=Entry(2000, low=1990, high=2020))
    assert (room.run.low, room.run.high, room.run.tbc) == (1990, 2020, True)


def test_a_start_with_no_room_behind_it_is_told_and_left_at_the_wall(work: Work) -> None:
    room = work(design__prewall__from_left=1900)
    assert (room.start.value, room.run.value) == (0, 2000)
    assert [each.path for each in room.problems] == ["rooms.0.design.prewall.from_left"]
    assert room.problems[0].text == "A pre-wall that starts at 1,900 has no room in 2,000: start it further left"


def test_a_run_that_may_turn_out_too_short_stays_buildable(work: Work) -> None:
    room = work(survey__room__width=Entry(2000, low=400, high=2000), design__prewall__from_left=300)
    assert (room.run.low, room.run.value) == (300, 1700)
