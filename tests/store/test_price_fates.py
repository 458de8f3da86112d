"""The fate of a row is the same however it is come by: among others or alone, as numbers or as words, at a glance or looked into."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from typing import Final

from hypothesis import given
from hypothesis import strategies as st

from tundish.store import sheet_rows
from tundish.store.price_fates import COLUMNS, Fate, Known, fates_of
from tundish.store.sheet_rows import Block, words_of

CODES: Final = ("A1", "A2", "A3", "TWO", "N1", "N2", "", 7.0)
PRICES: Final = (4.2, 12.0, 0.5, 0.00001, 1e7, -3.0, float("inf"), float("nan"), "4.20", " 12 ", "ask", "", "=1+1", "0", "€3", "1,200.50")
COUNTS: Final = ("", 1.0, 4.0, 0.0, "10", "ten", "3 m", True)
PLAIN: Final = re.compile(r"(?=.*[1-9])\d{1,6}(\.\d+)?")
ITEMS: Final = ("", "sound-pad", "no-such-item")
Cells = tuple[object, ...]
ROWS: Final = st.lists(
    st.tuples(st.sampled_from(CODES), st.sampled_from(PRICES), st.sampled_from(COUNTS), st.sampled_from(COUNTS), st.sampled_from(ITEMS)),
    max_size=12,
)
NUMBERS: Final = st.lists(st.floats(), min_size=1, max_size=6)


def known() -> Known:
    offers = {"A1": ("A1", 1, 0.0, 1.0, "4.2", 1), "A2": ("A2", 2, 3000.0, 4.0, "12.00", 2)}
    offers |= {code: (code, 3, 0.0, 1.0, "9", 1) for code in ("A3", "TWO")}
    heads = {name: name.title() for name in COLUMNS}
    return Known(offers, {"TWO"}, frozenset({"sound-pad"}), heads, {}, "2026-12-01")


def fates(rows: Sequence[Cells], together: int = 100) -> list[Fate]:
    places = {name: place for place, name in enumerate(COLUMNS)}
    blocks = (block_of(start + 2, rows[start : start + together]) for start in range(0, len(rows), together))
    return [each for few in fates_of(blocks, places, known()) for each in few.each()]


def block_of(first: int, rows: Sequence[Cells]) -> Block:
    return Block(first, len(rows), tuple(sheet_rows.Cells(frozenset(map(type, cells)), cells) for cells in zip(*rows, strict=True)))


@given(ROWS)
def test_the_fates_of_rows_are_the_same_alone_among_others_and_as_words(rows: list[Cells]) -> None:
    told = fates(rows)
    assert fates(rows, together=1) == told
    assert fates([tuple(map(words_of, row)) for row in rows]) == told


@given(ROWS)
def test_a_price_with_its_sign_is_taken_like_one_without(rows: list[Cells]) -> None:
    """What is written with a pound sign is looked into; what is written plainly is told at a glance."""
    written = [tuple(map(words_of, row)) for row in rows]
    signed = [(code, f"£{price}" if PLAIN.fullmatch(price) else price, *rest) for code, price, *rest in written]
    assert fates(signed) == fates(written)


@given(NUMBERS)
def test_a_column_of_numbers_gives_prices_as_they_are_written(numbers: list[float]) -> None:
    for number, each in zip(
        numbers, fates([(f"N{place}", number, "", "", "sound-pad") for place, number in enumerate(numbers)]), strict=True
    ):
        words = words_of(number)
        if each.fate == "new":
            assert (each.price_words, 0 < each.price < 1_000_000) == (words, True)
        else:
            assert f'"{words}"' in each.why
            assert "e" in words or "n" in words or not 0 < Decimal(words) < 1_000_000


def test_a_row_that_says_nothing_has_no_fate() -> None:
    blank: Cells = ("", "", "", "", "")
    assert [each.row for each in fates([blank, ("A1", 5.0, "", "", ""), blank, ("", " ", None, "", ""), ("A3", 6.0, "", "", "")])] == [3, 6]
