"""The rows of Stock: offcuts, what is on hand by place and job, what is short, and every movement."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import TYPE_CHECKING

from tundish import measure
from tundish.catalogue.book import Book
from tundish.catalogue.item import RackPiece
from tundish.desktop.cells import Cell, Group, Row
from tundish.procurement.outstanding import Short

if TYPE_CHECKING:
    from tundish.store.ledger import Holding, Movement

OLD_DAYS = 365


def offcuts(pieces: Iterable[tuple[RackPiece, str]], book: Book) -> Group:
    """The pieces on the rack."""
    rows = tuple(
        Row(
            f"rack {piece.key}",
            (
                Cell(book.item(piece.item).name, strong=True),
                Cell(f"{piece.length:,.0f}" + (f" × {piece.width:,.0f}" if piece.width else "")),
                Cell("1"),
                Cell(f"{piece.place}, {piece.key}", tone="ink2"),
                Cell(_whose(piece.job), tone="ink2"),
                Cell(age(came), tone="ink2"),
            ),
        )
        for piece, came in pieces
        if piece.item in book.items
    )
    return Group("offcuts", "Offcuts on the rack", rows)


def counted(holdings: Iterable[Holding], book: Book) -> Group:
    """What is counted, by item, place and job."""
    rows = tuple(
        Row(
            f"{each.item}@{each.place}@{each.job}",
            (
                Cell(book.item(each.item).name, strong=True),
                Cell("–", tone="ink2"),
                Cell(_amount(each.amount, each.item, book), strong=True, tone="fails" if each.amount < 0 else "ink"),
                Cell(each.place, tone="ink2"),
                Cell(_whose(each.job), tone="ink2"),
                Cell(age(each.since), tone="ink2"),
            ),
        )
        for each in holdings
        if each.item in book.items
    )
    return Group("counted", "On hand", rows)


def short(rows: Iterable[Short], book: Book) -> Group:
    """What is lacking for the accepted jobs, and what is under its level."""
    made = []
    for each in rows:
        if each.item not in book.items:
            continue
        words = _amount(each.lacking, each.item, book) if each.lacking else f"under {_amount(each.level, each.item, book)}"
        coming = f", {_amount(each.on_order, each.item, book)} coming" if each.on_order else ""
        told = f"need {_amount(each.needed, each.item, book)}{coming}"
        have = Cell(_amount(each.on_hand, each.item, book))
        made.append(
            Row(
                f"short:{each.item}",
                (
                    Cell(book.item(each.item).name, strong=True),
                    Cell(told, tone="ink2"),
                    have,
                    Cell(words, tone="fails" if each.lacking else "tbc", glyph="warn"),
                    Cell(f"order {_amount(each.reorder, each.item, book)}" if each.below else "", tone="ink2"),
                    Cell(),
                ),
            )
        )
    return Group("short", "Short, across accepted jobs", tuple(made))


def moved(rows: Iterable[Movement], book: Book) -> Group:
    """Every movement, newest first."""
    made = tuple(
        Row(
            f"move:{each.id}",
            (
                Cell(book.items[each.item].name if each.item in book.items else each.item, strong=True),
                Cell(f"{each.what}{f', {each.note}' if each.note else ''}", tone="ink2"),
                Cell(f"{'+' if each.amount > 0 else '−'}{abs(each.amount):,g}", strong=True),
                Cell(f"{each.place}{f', {each.piece}' if each.piece else ''}", tone="ink2"),
                Cell(_whose(each.job), tone="ink2"),
                Cell(measure.show_date(each.made[:10], with_year=False), tone="ink2"),
            ),
        )
        for each in rows
    )
    return Group("moved", "Movements", made[::-1])


def age(day: str) -> str:
    """How long something has been there."""
    days = (date.today() - date.fromisoformat(day)).days if day else 0
    if not days:
        return "today"
    return f"{days} {'day' if days == 1 else 'days'}" if days <= OLD_DAYS else "over a year"


def _amount(amount: float, item: str, book: Book) -> str:
    unit = book.item(item).unit
    return measure.show_amount(amount, unit, with_unit=unit != "each")


def _whose(job: str) -> str:
    return f"job {job}" if job else "free"
