"""The catalogue as tables that a spreadsheet holds, and back: items, ends, kits, roles, suppliers, offers; all words.

What comes back is judged by the same rules as the files that the catalogue was supplied in.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any, Final

from tundish.catalogue.book import Book
from tundish.catalogue.check import check
from tundish.catalogue.item import Item, Offer, Supplier
from tundish.catalogue.kind import Kind
from tundish.catalogue.records import COLUMNS, ITEM_COLUMNS, MAY, SUPPLIER_KEYS, Parts, Raw, item_columns, parts_of
from tundish.catalogue.table import rows_from
from tundish.field import Problem

Lines = Sequence[Sequence[str]]
Sheets = Mapping[str, Lines]
"""The lines of each table by its name, the head first."""
NAMES: Final = ("items", "ends", "kits", "roles", "suppliers", "offers")


def as_sheets(book: Book, kinds: Mapping[str, Kind]) -> Sheets:
    """The catalogue of a book as tables, in an order of their own: the same catalogue gives the same lines."""
    return {name: [heads_of(name, kinds), *lines] for name, lines in _lines(book, kinds).items()}


def heads_of(name: str, kinds: Mapping[str, Kind]) -> list[str]:
    """The heads of a table."""
    needed, may = _columns(name, kinds)
    return [*needed, *may]


def from_sheets(sheets: Sheets, kinds: Mapping[str, Kind], systems: Mapping[str, Any]) -> tuple[Parts, tuple[Problem, ...]]:
    """What tables say, and every problem by table and row; a table that is not there is told."""
    problems = [Problem(name, "is missing: the table is not in what was opened") for name in NAMES if name not in sheets]
    rows = {name: rows_from(name, enumerate(lines, 1), _columns(name, kinds), problems) for name, lines in sheets.items() if name in NAMES}
    parts = parts_of(Raw(kinds, systems, rows), problems)
    return parts, (*problems, *check(parts))


def item_cells(item: Item) -> dict[str, str]:
    """The row of an item by its heads, without what it does not say."""
    sizes = {name: _number(value) for name, (value, _) in item.sizes.items()}
    return {"code": item.code, "name": item.name, "kind": item.kind, "sheet": item.sheet, **sizes, **item.words}


def end_cells(item: Item) -> list[dict[str, str]]:
    """The rows of an item's ends."""
    return [
        {"item": item.code, "end": str(place), "system": one.system, "nominal": one.nominal, "gender": one.gender, "standard": one.standard}
        for place, one in enumerate(item.ends, 1)
    ]


def offer_cells(offer: Offer) -> dict[str, str]:
    """The row of an offer."""
    return {
        "item": offer.item,
        "supplier": offer.supplier,
        "code": offer.code,
        "pack": _number(offer.pack),
        "price": money_words(offer.price),
        "valid_from": offer.valid_from,
        "length": _number(offer.length) if offer.length else "",
        "width": _number(offer.width) if offer.width else "",
        "least": str(offer.least) if offer.least != 1 else "",
        "breaks": "; ".join(f"{packs}: {money_words(price)}" for packs, price in offer.breaks),
        "valid_to": offer.valid_to,
        "lead_days": "" if offer.lead_days is None else str(offer.lead_days),
    }


def money_words(amount: Decimal) -> str:
    """An exact amount with two places, or as many as it has."""
    whole, _, pence = f"{amount:f}".partition(".")
    return f"{whole}.{pence.rstrip('0').ljust(2, '0')}"


def _lines(book: Book, kinds: Mapping[str, Kind]) -> dict[str, list[list[str]]]:
    items = [book.items[code] for code in sorted(book.items)]
    kits = [(kit, part) for kit in sorted(book.kits) for part in sorted(book.kits[kit], key=lambda one: one.item)]
    offers = sorted((one for few in book.offers.values() for one in few), key=lambda one: (one.item, one.supplier, one.pack, one.code))
    return {
        "items": list(_filled("items", kinds, (item_cells(item) for item in items))),
        "ends": list(_filled("ends", kinds, (row for item in items for row in end_cells(item)))),
        "kits": [[kit, part.item, _number(part.amount)] for kit, part in kits],
        "roles": [[role, item] for role, item in sorted(book.roles.items())],
        "suppliers": list(_filled("suppliers", kinds, (_supplier_cells(book.suppliers[key]) for key in sorted(book.suppliers)))),
        "offers": list(_filled("offers", kinds, (offer_cells(one) for one in offers))),
    }


def _filled(name: str, kinds: Mapping[str, Kind], rows: Iterator[dict[str, str]]) -> Iterator[list[str]]:
    heads = heads_of(name, kinds)
    return ([row.get(head, "") for head in heads] for row in rows)


def _supplier_cells(supplier: Supplier) -> dict[str, str]:
    said = {name: str(getattr(supplier, name)) for name in SUPPLIER_KEYS}
    return {"key": supplier.key, **said, "carriage": money_words(supplier.carriage), "free_above": money_words(supplier.free_above)}


def _columns(name: str, kinds: Mapping[str, Kind]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The columns that a table needs, and those it may have."""
    if name == "items":
        return ITEM_COLUMNS, item_columns(kinds)
    if name == "suppliers":
        return ("key", *SUPPLIER_KEYS), ()
    return COLUMNS[name], MAY.get(name, ())


def _number(value: float) -> str:
    return f"{value:.9f}".rstrip("0").rstrip(".")
