"""What of the book cannot be used for what is wanted: kits that hold what is not there, and prices of nobody."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.catalogue.item import KitPart
from tundish.field import Problem
from tundish.takeoff.line import Line


def unusable(lines: tuple[Line, ...], book: Book) -> Iterator[Problem]:
    """Each row of a kit and each price that is left out, at its place in the catalogue."""
    for item in dict.fromkeys(line.item.code for line in lines):
        name = book.item(item).name
        for part in book.kits.get(item, ()):
            if part not in book.in_kit(item):
                wrong = "which the catalogue does not hold" if part.item not in book.items else "which is no amount"
                mend = "put that item back, or take the row out of the kit"
                yield Problem(
                    f"kits.{item}", f"{name}, what the kit holds: {part.amount:g} of {part.item}, {wrong}. It is left out: {mend}."
                )
        for offer in book.offers.get(item, ()):
            if offer.supplier not in book.suppliers:
                told = f"{name} is offered by {offer.supplier}, a supplier that the catalogue does not hold"
                yield Problem(f"offers.{offer.key}", f"{told}. The price is left out: put the supplier back, or take the price out.")


def _wrong(part: KitPart, kit: str, book: Book) -> str:
    if part.item not in book.items:
        return "which the catalogue does not hold"
    return "which is the kit itself" if part.item == kit else "which is no amount"
