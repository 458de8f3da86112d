"""How near pipes come to one another, against places taken all along both of them."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise, product
from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.figure import number
from tundish.layout.clear import between_runs
from tundish.layout.room import PipeRun

STEPS = 12
Place = tuple[float, float, float]
places = st.tuples(*(st.floats(-2_000, 2_000) for _ in "xyz"))
routes = st.lists(places, min_size=2, max_size=5).map(tuple)
NO = number(0)
PIPE = PipeRun("hot", "H1", "Hot", "hot", "basin-1", 15, NO, None, None, (), (), outside=22.0)


def laid(route: tuple[Place, ...]) -> PipeRun:
    return replace(PIPE, route=route)


def along(route: tuple[Place, ...]) -> list[Place]:
    """Places all along a route, the corners among them."""
    return [
        (
            one[0] + (other[0] - one[0]) * step / STEPS,
            one[1] + (other[1] - one[1]) * step / STEPS,
            one[2] + (other[2] - one[2]) * step / STEPS,
        )
        for one, other in pairwise(route)
        for step in range(STEPS + 1)
    ]


@given(routes, routes)
def test_nowhere_do_two_runs_come_nearer_than_is_said(one: tuple[Place, ...], other: tuple[Place, ...]) -> None:
    said = between_runs(laid(one), laid(other)) + 22.0
    found = min(dist(a, b) for a, b in product(along(one), along(other)))
    longest = max(dist(a, b) for route in (one, other) for a, b in pairwise(route))
    assert found - longest / STEPS - 1e-6 <= said <= found + 1e-6
    assert said == pytest.approx(between_runs(laid(other), laid(one)) + 22.0, abs=1e-6)


def test_runs_that_cross_are_as_near_as_their_depths() -> None:
    """One along the wall at 30 out of it, one up the wall at 60: 30 between the middles, two halves of 22 off it."""
    level = laid(((0, 30, 500), (1_000, 30, 500), (1_000, 30, 100)))
    upright = laid(((400, 60, 0), (400, 60, 900)))
    assert between_runs(level, upright) == pytest.approx(8)
