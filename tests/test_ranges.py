"""What a figure may still be, in words; and how far one input alone moves it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.figure import Figure, between, largest, number
from tundish.ranges import alone, may_be, to_confirm, with_range


@pytest.mark.parametrize(
    ("figure", "words"),
    [
        (number(28), ("", "28", "28")),
        (between(28, 26, 34), ("26 to 34", "28 (26 to 34)", "28 (TBC: 26 to 34)")),
        (between(28, 28, 28), ("", "28", "28 (TBC)")),
        (between(138.537, 138.534, 138.538), ("", "139", "139 (TBC)")),
        (between(12.5, 11, 13, "mm/m"), ("11.0 to 13.0", "12.5 (11.0 to 13.0)", "12.5 (TBC: 11.0 to 13.0)")),
    ],
)
def test_what_it_may_be_is_said_where_it_reads_otherwise(figure: Figure, words: tuple[str, str, str]) -> None:
    assert (may_be(figure), with_range(figure), to_confirm(figure)) == words


def read(path: str, value: float, low: float, high: float) -> Figure:
    return replace(between(value, low, high, label=path), path=path)


def test_one_input_alone_moves_a_figure_by_its_own_range() -> None:
    floor, tile = read("floor", 20, 16, 28), read("tile", 10, 8, 12)
    top = floor + tile + 400
    assert (top.low, top.high) == (424, 440)
    assert alone(top, "floor") == (426, 438)
    assert alone(top, "tile") == (428, 432)
    assert alone(top, "another") == (430, 430)


def test_an_input_without_a_range_moves_nothing_yet() -> None:
    assert alone(read("floor", 20, 20, 20) + read("tile", 10, 8, 12), "floor") == (30, 30)


@given(st.lists(st.integers(0, 60), min_size=6, max_size=6))
def test_each_alone_stays_within_what_all_do_together(ends: list[int]) -> None:
    one, other = sorted(ends[:3]), sorted(ends[3:])
    floor, tile = read("floor", one[1], one[0], one[2]), read("tile", other[1], other[0], other[2])
    for figure in (floor + tile, floor - tile, largest(floor, tile), 2 * floor + tile):
        for path in ("floor", "tile"):
            low, high = alone(figure, path)
            assert figure.low <= low <= figure.value <= high <= figure.high
