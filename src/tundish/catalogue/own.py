"""Ware of one job that the catalogue does not hold: its sizes typed from the maker's sheet, each with how it is known."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.field import Entry, amount, choice, length, read, records, text
from tundish.figure import Figure, Known

OWN_KINDS: Final = ("wc pan", "basin", "bidet", "urinal")
_ALSO: Final = ("weight", "flush", "flush_small")


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnSize:
    """One size of the sheet, by the name that the kind of ware knows it by."""

    name: str = text("Which")
    value: Entry | None = length("Size", least=-2_000, most=3_000, known=Known.MAKER)


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnItem:
    """A piece of ware with the sizes that its kind needs."""

    code: str = text("Code")
    kind: str = choice("Kind", OWN_KINDS)
    name: str = text("Model", "As it stands on the box and on your papers.")
    sheet: str = text("Maker's sheet", "Its number and date, and where you saw it; or that the ware itself was taped.")
    sizes: tuple[OwnSize, ...] = records("Sizes", OwnSize)
    weight: Entry | None = amount("Weight", "kg", most=300, likely=(5, 60), known=Known.MAKER)
    flush: Entry | None = amount("Full flush", "l", most=20, likely=(3, 6), known=Known.MAKER, help="WC only.")
    flush_small: Entry | None = amount("Small flush", "l", most=20, likely=(2, 4), known=Known.MAKER, help="WC only.")


def with_own(book: Book, own: tuple[OwnItem, ...]) -> Book:
    """The book with a job's own ware in it; the same book where there is none, and the same again for the same two.

    Books are told apart by being the same object, so the last few that were made are kept.
    """
    if not own:
        return book
    held = _MADE.get(id(own))
    if held is None or held[0] is not own or held[1] is not book:
        held = (own, book, _joined(book, own))
        while len(_MADE) >= _MOST:
            _MADE.pop(next(iter(_MADE)), None)
        _MADE[id(own)] = held
    return held[2]


_MOST: Final = 8
_MADE: Final[dict[int, tuple[tuple[OwnItem, ...], Book, Book]]] = {}


def _joined(book: Book, own: tuple[OwnItem, ...]) -> Book:
    made = {each.code: _item(each, f"own_items.{place}", book) for place, each in enumerate(own) if each.code}
    return replace(book, items={**made, **book.items})


def _item(own: OwnItem, path: str, book: Book) -> Item:
    """The ware as an item: a size left blank is one that the sheet does not give. Its ends are those of any ware of its kind."""
    figures = {each.name: read(each, "value", f"{path}.sizes.{place}") for place, each in enumerate(own.sizes)}
    figures |= {name: read(own, name, path) for name in _ALSO}
    given: Mapping[str, Figure] = {name: figure for name, figure in figures.items() if figure is not None}
    like = next(iter(book.of_kind(own.kind)), None)
    return Item(
        own.code,
        own.name.strip() or f"Own {own.kind}",
        own.kind,
        like.group if like else "Frames and sanitaryware",
        "each",
        {name: (figure.value, figure.unit) for name, figure in given.items()},
        like.ends if like else (),
        sheet=own.sheet,
        own=given,
    )
