"""The largest circle free on a floor: where it is by hand, that it touches nothing, and that none is larger."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.layout.clip import box
from tundish.layout.floor_plan import Outline, inside
from tundish.layout.free_circle import largest_circle
from tundish.layout.walls import Point

ROOM = ((0.0, 0.0), (2400.0, 0.0), (2400.0, 2200.0), (0.0, 2200.0))
L_SHAPED = ((0.0, 0.0), (3000.0, 0.0), (3000.0, 1500.0), (1500.0, 1500.0), (1500.0, 4000.0), (0.0, 4000.0))


def room(wide: float, deep: float) -> Outline:
    return box(0.0, wide, 0.0, deep)


def clear(place: Point, walls: Outline, taken: list[Outline]) -> float:
    """How far a place is from everything; nothing where it is not free."""
    if not inside(walls, place) or any(inside(shape, place) for shape in taken):
        return 0.0
    return min(_away(place, *edge) for shape in (walls, *taken) for edge in pairwise((*shape, shape[0])))


def _away(place: Point, start: Point, end: Point) -> float:
    dx, dy = end[0] - start[0], end[1] - start[1]
    share = ((place[0] - start[0]) * dx + (place[1] - start[1]) * dy) / (dx * dx + dy * dy)
    share = min(max(share, 0.0), 1.0)
    return math.dist(place, (start[0] + share * dx, start[1] + share * dy))


@pytest.mark.parametrize(
    ("walls", "taken", "radius"),
    [
        (ROOM, [], 1100.0),  # half of the shorter side
        (ROOM, [box(0, 2400, 0, 249)], 975.5),  # less a pre-wall
        (room(1500, 5200), [box(0, 200, 0, 5200), box(0, 1500, 0, 250)], 650.0),  # anywhere along a passage
        (ROOM, [box(0, 2400, 0, 249), box(520, 880, 249, 779)], 1520 + 1421 - math.sqrt(2 * 1520 * 1421)),  # two walls and a corner
        (L_SHAPED, [], 1500 * (2 - math.sqrt(2))),  # in the corner, to the one that looks in
        (((0.0, 0.0), (4000.0, 0.0), (0.0, 3000.0)), [], 1000.0),  # of a 3, 4, 5 triangle: area over half of what is round it
    ],
)
def test_it_is_as_large_as_by_hand(walls: Outline, taken: list[Outline], radius: float) -> None:
    found = largest_circle(walls, taken)
    assert found is not None
    assert found.radius == pytest.approx(radius, abs=0.1)


def test_where_nothing_is_free_there_is_none() -> None:
    assert largest_circle(ROOM, [ROOM]) is None
    assert largest_circle(ROOM, [box(0, 2400, 60, 2200)]) is None


sizes = st.floats(50, 1500)
places = st.floats(-200, 2800)
standing = st.lists(
    st.tuples(places, places, sizes, sizes).map(lambda one: box(one[0], one[0] + one[2], one[1], one[1] + one[3])), max_size=5
)
corners = st.tuples(st.floats(900, 3000), st.floats(-200, 200), st.floats(900, 3000), st.floats(-300, 300))


@settings(max_examples=40, deadline=None)
@given(corners.map(lambda one: ((0.0, 0.0), (one[0], one[1]), (one[0] + one[3], one[2]), (0.0, one[2]))), standing)
def test_it_touches_nothing_and_no_place_is_clear_by_more(walls: Outline, taken: list[Outline]) -> None:
    found = largest_circle(walls, taken)
    if found is not None:
        assert clear((found.x, found.y), walls, taken) == pytest.approx(found.radius, abs=1e-6)
    most = 50.1 if found is None else found.radius + 0.1
    steps = [-300 + 103.7 * step for step in range(36)]
    assert max(clear((x, y), walls, taken) for x in steps for y in steps) <= most
