"""The programme's picture: every stage has its bar on its days, and nothing stands outside."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.documents.drawing import Box, Words
from tundish.documents.programme_drawing import ACROSS, BESIDE, drawn, stages, told
from tundish.pricing.price import Day

WEEK = (
    Day(1, "2026-11-30", (("Strip out", 6.0), ("First fix", 2.0))),
    Day(2, "2026-12-01", (("First fix", 8.0),)),
    Day(3, "2026-12-02", (), "Adhesive and grout cure"),
    Day(4, "2026-12-03", (("Second fix", 3.0),)),
)


def bars(days: tuple[Day, ...]) -> list[Box]:
    return [mark for mark in drawn(days).marks if isinstance(mark, Box) and mark.style == "steel"]


def test_a_bar_is_as_wide_as_its_part_of_the_day() -> None:
    wide = ACROSS / 4
    first, second, whole, last = bars(WEEK)
    assert (first.x, first.width) == pytest.approx((BESIDE, wide * 0.75))
    assert (second.x, second.width) == pytest.approx((BESIDE + wide * 0.75, wide * 0.25))
    assert second.y == whole.y < first.y
    assert (last.x, last.width) == pytest.approx((BESIDE + 3 * wide, wide))


def test_a_wait_is_dashed_and_said() -> None:
    dashed = [mark for mark in drawn(WEEK).marks if isinstance(mark, Box) and mark.style == "hidden"]
    assert [mark.x for mark in dashed] == pytest.approx([BESIDE + ACROSS / 2])
    assert told(WEEK) == "Strip out: 30 Nov; First fix: 30 Nov to 1 Dec; Second fix: 3 Dec; Adhesive and grout cure: 2 Dec"


def test_days_without_a_start_are_numbered() -> None:
    assert told((Day(1, "", (("First fix", 8.0),)), Day(2, "", (("First fix", 1.0),)))) == "First fix: Day 1 to Day 2"


@given(st.lists(st.lists(st.sampled_from(["a", "b", "c"]), min_size=1, max_size=3, unique=True), min_size=1, max_size=90))
def test_everything_lies_within_the_picture_and_every_day_is_full(work: list[list[str]]) -> None:
    days = tuple(Day(place + 1, "", tuple((name, 2.0) for name in names)) for place, names in enumerate(work))
    x, y, wide, high = drawn(days).extent
    boxes = bars(days)
    assert sum(box.width for box in boxes) == pytest.approx(ACROSS)
    assert all(x <= box.x and box.x + box.width <= x + wide + 1e-6 and y <= box.y and box.y + box.height <= y + high for box in boxes)
    assert [mark.text for mark in drawn(days).marks if isinstance(mark, Words) and mark.anchor == "end"] == list(stages(days))
