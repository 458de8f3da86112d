"""Makers' sizes under the trade's words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tundish.catalogue.book import Book
from tundish.catalogue.item import NoSuchSizeError
from tundish.figure import Known
from tundish.layout.makers import half, size


def test_a_size_says_whose_sheet_it_is_from(book: Book) -> None:
    found = size(book.item("pan"), "top_to_studs", "Top of pan down to studs")
    assert (found.value, found.label, found.known, found.note) == (100, "Top of pan down to studs", Known.MAKER, "sheet")
    assert size(replace(book.item("pan"), sheet=""), "ceramic", "Ceramic").note == "pan"


def test_half_a_size(book: Book) -> None:
    assert half(book.item("strut-41x21"), "face", "Half").value == 20.5


def test_a_size_that_the_sheet_does_not_give(book: Book) -> None:
    with pytest.raises(NoSuchSizeError):
        size(book.item("tap"), "width", "Width")
