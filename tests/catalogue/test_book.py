"""The book is asked by code, role, kind and figure."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tundish.catalogue.book import NotInBookError, RuleFigure
from tundish.catalogue.item import NoSuchSizeError
from tundish.catalogue.load import supplied_book
from tundish.figure import Known

LEAST = RuleFigure("drainage.wc_fall_least", 18, "mm/m", "Least fall", "Approved Document H", "2026-11-01", supplied=18)


def test_what_it_does_not_hold_is_named() -> None:
    book = supplied_book()
    with pytest.raises(NotInBookError, match="do not hold an item pan-gold"):
        book.item("pan-gold")
    with pytest.raises(NotInBookError, match="do not hold anything for 'gold leaf'"):
        book.role("gold leaf")
    with pytest.raises(NotInBookError, match="do not hold a rule figure gilding"):
        book.figure("gilding.coats")


def test_items_of_a_kind_come_by_name() -> None:
    names = [item.name for item in supplied_book().of_kind("basin", "bidet")]
    assert names == sorted(names)
    assert {"Fethan 500 basin", "Ondel 530 bidet"} <= set(names)


def test_a_figure_is_a_rule_until_the_trader_changes_it() -> None:
    figure = LEAST.figure()
    assert (figure.value, figure.unit, figure.known, figure.note, figure.when) == (
        18,
        "mm/m",
        Known.RULE,
        "Approved Document H",
        "2026-11-01",
    )
    assert replace(LEAST, value=20, changed="2026-11-20").figure().known is Known.TYPED


def test_a_size_the_sheet_does_not_give_is_a_fault() -> None:
    pan = supplied_book().item("pan-ondel-530")
    assert pan.has("projection")
    assert not pan.has("top_to_waste")
    with pytest.raises(NoSuchSizeError, match="gives no top to waste for pan-ondel-530"):
        pan.size("top_to_waste")
    with pytest.raises(NoSuchSizeError, match="gives no top to waste for pan-ondel-530"):
        pan.bare("top_to_waste")


def test_a_size_as_a_bare_number_is_that_of_the_sheet() -> None:
    pan = supplied_book().item("pan-ondel-530")
    assert pan.bare("projection") == pan.size("projection").value


def test_two_books_are_the_same_only_when_they_are_one() -> None:
    book = supplied_book()
    assert book == book  # noqa: PLR0124
    assert book != replace(book)
