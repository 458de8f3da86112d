"""Strips dealt out over pages."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tundish.writers.pdf_flow import BOTTOM, ROOM, TOP, Strip, beside, pages, stacked

heights = st.lists(st.tuples(st.floats(1, ROOM), st.floats(0, 20), st.booleans()), max_size=60)


def _strip(height: float, gap: float = 0, *, keep: bool = False, head: Strip | None = None) -> Strip:
    return Strip(height, lambda *_: None, gap, keep, head)


@given(heights)
def test_every_strip_stands_once_in_order_and_within_its_page(made: list[tuple[float, float, bool]]) -> None:
    strips = [_strip(height, gap, keep=keep) for height, gap, keep in made]
    dealt = pages(strips)
    assert [placed.strip for page in dealt for placed in page] == strips
    for page in dealt:
        below = TOP
        for placed in page:
            assert placed.top <= below + 0.001
            below = placed.top - placed.strip.height
            assert below >= BOTTOM - 0.001


def test_nothing_is_still_a_page() -> None:
    assert pages(()) == ((),)


def test_strips_kept_together_move_together() -> None:
    dealt = pages([_strip(ROOM - 50), _strip(30, keep=True), _strip(30)])
    assert [len(page) for page in dealt] == [1, 2]


def test_strips_kept_together_that_no_page_holds_are_parted() -> None:
    assert [len(page) for page in pages([_strip(ROOM * 0.6, keep=True), _strip(ROOM * 0.6)])] == [1, 1]


def test_a_head_is_drawn_again_on_the_next_page_only() -> None:
    head = _strip(20)
    rows = [_strip(100, head=head) for _ in range(10)]
    dealt = pages([head, *rows])
    assert [page[0].strip is head for page in dealt] == [True] * len(dealt)
    assert sum(len(page) for page in dealt) == 10 + len(dealt)


def test_the_space_above_is_left_out_at_the_top() -> None:
    first, second = pages([_strip(ROOM, 30), _strip(10, 30)])
    assert first[0].top == TOP
    assert second[0].top == TOP


def test_strips_stacked_or_beside_one_another_are_as_high_as_they_need() -> None:
    assert stacked([_strip(10, 5), _strip(20, 3)]).height == 33
    assert stacked([]).height == 0
    assert beside(_strip(10, 2), _strip(30, 4), 100).height == 30
