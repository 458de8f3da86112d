"""The columns of a table on paper."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tundish.documents.block import Column, Row, Table
from tundish.writers.pdf_columns import PAD, PLAIN, grid_of, tag_words

columns = st.lists(
    st.builds(Column, st.text(max_size=20), st.sampled_from(["text", "length", "money", "tick", "blank"]), st.floats(0, 5)),
    min_size=1,
    max_size=12,
)


@given(columns, st.lists(st.text(max_size=60), max_size=12), st.floats(150, 600))
def test_columns_fill_the_width_side_by_side(made: list[Column], cells: list[str], width: float) -> None:
    grid = grid_of(Table(tuple(made), (Row(tuple(cells[: len(made)])),)), width)
    assert abs(sum(place.width for place in grid.places) - width) < 0.01
    assert all(place.width > 0 for place in grid.places)


def test_shares_are_kept_where_everything_fits() -> None:
    narrow, wide = grid_of(Table((Column("a"), Column("b", share=3)), (Row(("x", "y")),)), 400).places
    assert (narrow.width, wide.width) == (100, 300)


def test_a_figure_is_never_broken_for_a_long_text_beside_it() -> None:
    table = Table((Column("Words", share=9), Column("£", "money", 0.1)), (Row(("long " * 60, 1234567)),))
    figures = grid_of(table, 200).places[1]
    assert figures.room >= PLAIN.width("1,234,567.00")


def test_a_short_column_leaves_its_room_to_a_long_one() -> None:
    short, long = grid_of(Table((Column("a"), Column("b")), (Row(("x", "long " * 60)),)), 300).places
    assert short.width < 4 * PAD
    assert long.width > 270


def test_short_words_are_kept_whole_beside_long_ones() -> None:
    table = Table((Column("Item", share=3), Column("Buy"), Column("Why", share=3)), (Row(("long " * 40, "1 × 10,000 mm", "long " * 40)),))
    buy = grid_of(table, 400).places[1]
    assert buy.room >= PLAIN.width("1 × 10,000 mm")


def test_the_tag_takes_a_short_note_along() -> None:
    assert tag_words(Row((), tbc=True, note="Cut last.")) == "TBC: Cut last"
    assert tag_words(Row((), tbc=True, note="long " * 20)) == "TBC"
    assert tag_words(Row((), tbc=True)) == "TBC"
