"""How near pipes come to one another, against places taken all along both of them."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise, product
from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.figure import number
from tundish.layout.clear import Block, Rod, between_runs, clears, no_nearer, to_block, to_rod
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


@given(routes, routes, st.floats(0, 500))
def test_whether_two_runs_clear_is_as_how_near_they_come(one: tuple[Place, ...], other: tuple[Place, ...], least: float) -> None:
    between = between_runs(laid(one), laid(other))
    assert clears(laid(one), laid(other), least) == (between >= least)
    assert no_nearer(laid(one), laid(other)) <= between + 1e-6


@given(routes, places, places)
def test_nowhere_does_a_run_come_nearer_to_a_block_than_is_said(run: tuple[Place, ...], one: Place, other: Place) -> None:
    least, most = zip(*(sorted(pair) for pair in zip(one, other, strict=True)), strict=True)
    block = Block("leg", "", least, most)
    said = to_block(laid(run), block) + 11.0
    held = [tuple(min(max(at, low), high) for at, low, high in zip(place, least, most, strict=True)) for place in along(run)]
    found = min(dist(a, b) for a, b in zip(along(run), held, strict=True))
    longest = max(dist(a, b) for a, b in pairwise(run))
    assert found - longest / STEPS - 1e-6 <= said <= found + 1e-6
    assert no_nearer(laid(run), block) <= said - 11.0 + 1e-6


def test_a_slanting_run_is_as_near_to_the_edge_of_a_block_as_the_square_on_it() -> None:
    """It goes from 200 before the block's middle to 200 beside it, at 45 degrees: its edge at 50, 50 is (200 - 100) / 1.4142 off it."""
    slanting = laid(((200, 0, 500), (0, 200, 500)))
    assert to_block(slanting, Block("leg", "", (-50, -50, 0), (50, 50, 1_000))) == pytest.approx(100 / 2**0.5 - 11)


def test_a_rod_across_a_run_is_as_near_as_their_heights() -> None:
    """The rod at 1,000 goes square to the wall over the run at 960: 40 between the middles, halves of 22 and of 12 off it."""
    level, rod = laid(((0, 30, 960), (1_000, 30, 960))), Rod("a tie rod", ((500, 0, 1_000), (500, 165, 1_000)), 12.0)
    assert to_rod(level, rod) == pytest.approx(40 - 11 - 6)
    assert no_nearer(level, rod) <= 40 - 11 - 6
