"""Pieces longer than any bar: in parts no longer than a bar that add up, joined only where a joint may lie."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as some

from tundish.cutting.joints import Joints, joined, ways_out
from tundish.cutting.plan import BadCutError, Piece


@given(some.floats(1, 20_000), some.floats(100, 6000), some.lists(some.floats(1, 20_000), max_size=20))
def test_parts_add_up_and_fit(length: float, longest: float, places: list[float]) -> None:
    parts = joined(Piece("S1", length), longest, Joints(500, tuple(places)))
    if parts:
        assert sum(part.length for part in parts) == pytest.approx(length)
        assert max(part.length for part in parts) <= longest + 1e-5
    if not places:
        assert len(parts) == max(1, -(-length // longest)) or length % longest < 1e-3


def test_strut_is_joined_at_an_upright() -> None:
    parts = joined(Piece("T1", 4200), 3000, Joints(450, (800, 1600, 2400, 3200, 4000)))
    assert [(part.mark, part.length) for part in parts] == [("T1a", 2400), ("T1b", 1800)]
    assert joined(Piece("T1", 2900), 3000, Joints(450)) == (Piece("T1", 2900),)


def test_the_ways_out_are_said() -> None:
    assert list(ways_out(Piece("T1", 4200), 3000, Joints(450))) == [
        "Join 3000 + 1200: 1 joint, £4.50.",
        "Order a bar of 4200 mm or longer.",
    ]
    assert next(iter(ways_out(Piece("T1", 9000), 3000, Joints(450)))).startswith("Join 3000 + 3000 + 3000: 2 joints")
    assert next(iter(ways_out(Piece("T1", 4200), 3000, Joints(450, (500,))))) == (
        "No joint can lie so that every part is 3000 mm or less: add an upright."
    )
    assert list(ways_out(Piece("T1", 4200), 3000)) == ["Order a bar of 4200 mm or longer."]


def test_many_parts_are_numbered() -> None:
    assert joined(Piece("P", 3000), 100, Joints(0))[-1].mark == "P-30"


def test_a_joint_is_priced_and_placed() -> None:
    with pytest.raises(BadCutError):
        Joints(-1)
    with pytest.raises(BadCutError):
        Joints(1, (float("nan"),))
