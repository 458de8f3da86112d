from __future__ import annotations

from collections.abc import Callable

import pytest

from tundish.cutting.plan import BadCutError, Bar, Piece, Sheet
from tundish.errors import TundishError


@pytest.mark.parametrize("length", [0.0, -5.0, float("nan"), float("inf")])
@pytest.mark.parametrize(
    ("made", "told"),
    [
        (lambda length: Piece("S1", length), "piece S1: length"),
        (lambda length: Bar(length, 100, name="strut"), "bar strut: length"),
        (lambda length: Sheet(length, 900, 100, name="board"), "sheet board: length"),
        (lambda length: Sheet(900, length, 100, name="board"), "sheet board: width"),
    ],
)
def test_a_length_is_more_than_nought(made: Callable[[float], object], told: str, length: float) -> None:
    with pytest.raises(BadCutError, match=f"{told} should be more than nought"):
        made(length)


@pytest.mark.parametrize(
    ("made", "told"),
    [
        (lambda: Piece("S1", 100, -1), "piece S1: count"),
        (lambda: Piece("S1", 100, width=-1), "piece S1: width"),
        (lambda: Bar(100, -1, name="strut"), "bar strut: cost"),
        (lambda: Bar(100, 1, -1, name="strut"), "bar strut: count"),
        (lambda: Sheet(100, 100, -1, name="board"), "sheet board: cost"),
        (lambda: Sheet(100, 100, 1, -1, name="board"), "sheet board: count"),
    ],
)
def test_a_count_or_cost_is_nought_or_more(made: Callable[[], object], told: str) -> None:
    with pytest.raises(BadCutError, match=told):
        made()


def test_a_bad_cut_is_of_the_family_and_a_value_error() -> None:
    assert issubclass(BadCutError, TundishError)
    assert issubclass(BadCutError, ValueError)
