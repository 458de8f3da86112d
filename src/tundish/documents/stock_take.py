"""The stock-take sheet: what should be there, with boxes to write what is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tundish import measure
from tundish.catalogue.book import Book
from tundish.catalogue.item import RackPiece
from tundish.documents.block import Column, Document, FillIn, Paragraph, Row, Table
from tundish.documents.paper import UNNAMED

_COUNTED = (
    Column("Item", "text", 3.0, "strong"),
    Column("Kept for", "text", 1.2),
    Column("Should be", "text", 1.0),
    Column("Counted", "blank", 1.0),
    Column("Why different", "blank", 2.0),
)
_PIECES = (
    Column("Piece", "text", 0.7, "strong"),
    Column("Material", "text", 2.6),
    Column("Length", "length", 0.9, "strong"),
    Column("Width", "length", 0.9),
    Column("Kept for", "text", 1.0),
    Column("There", "tick", 0.6),
)


@dataclass(frozen=True, slots=True)
class Held:
    """So much of an item in a place, free or kept for a job."""

    item: str
    place: str
    job: str
    amount: float


def build(book: Book, held: Iterable[Held], rack: Iterable[RackPiece], day: str) -> Document:
    """The sheet for the van, the lock-up and the sites, on a day, with every offcut, kept for whichever job."""
    rows = tuple(held)
    blocks = [
        Table(_COUNTED, tuple(_counted(each, book) for each in rows if each.place == place), title=place.capitalize())
        for place in dict.fromkeys(each.place for each in rows)
    ]
    pieces = tuple(
        Row((each.key, book.items[each.item].name, each.length, each.width or None, _whose(each.job), ""))
        for each in rack
        if each.item in book.items
    )
    title = f"Stock-take, {measure.show_date(day)}"
    return Document(
        key="stock-take",
        title="Stock-take",
        number="",
        subtitle=measure.show_date(day),
        sender=book.trader.name or UNNAMED,
        trade=book.trader.trade,
        name=f"Stock-take {day}",
        foot=title,
        blocks=(
            Paragraph("Count what is there and write it beside; where it differs, say why. Then type it on Stock.", "note"),
            *blocks,
            Table(_PIECES, pieces, title="Offcuts on the rack"),
            FillIn("Counted", (), ("By", "Date")),
        ),
        tables_only=True,
        colour=book.trader.colour,
    )


def _counted(held: Held, book: Book) -> Row:
    item = book.items.get(held.item)
    name, unit = (item.name, item.unit) if item else (held.item, "each")
    return Row((name, _whose(held.job), measure.show_amount(held.amount, unit, with_unit=True), None, None))


def _whose(job: str) -> str:
    return f"job {job}" if job else "–"
