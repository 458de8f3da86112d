"""The catalogue changed: one item at a time or as a whole, judged by the rules it was supplied under; wholly, or not at all."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from tundish.catalogue.book import Book
from tundish.catalogue.check import check
from tundish.catalogue.item import Item, KitPart, Offer
from tundish.catalogue.load import supplied_kinds, supplied_systems
from tundish.catalogue.records import Parts, Raw, parts_of
from tundish.catalogue.sheets import Sheets, as_sheets, end_cells, from_sheets, item_cells, offer_cells
from tundish.catalogue.table import Row
from tundish.field import Problem
from tundish.store import shelf

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from tundish.store.keep import Store

Cells = Mapping[str, str]
OFFERS: Final = "offers"
BEFORE: Final = "catalogue before"
"""The setting that holds the catalogue which another was put in place of, and the sign of that other."""
_TABLES: Final = ("items", "roles", "kits", "suppliers", OFFERS)


@dataclass(frozen=True, slots=True)
class ItemRows:
    """One item as it is typed: its own cells, then its ends, the parts of the kit it is, and who sells it, a row each."""

    item: Cells
    ends: tuple[Cells, ...] = ()
    kit: tuple[Cells, ...] = ()
    offers: tuple[Cells, ...] = ()


def rows_of(book: Book, code: str) -> ItemRows:
    """An item of the book as it is typed."""
    item = book.item(code)
    kit = tuple({"part": part.item, "amount": f"{part.amount:g}"} for part in book.kits.get(code, ()))
    return ItemRows(item_cells(item), tuple(end_cells(item)), kit, tuple(offer_cells(one) for one in book.offers.get(code, ())))


def keep_item(store: Store, rows: ItemRows, was: str = "") -> tuple[Problem, ...]:
    """Keep an item as typed in place of the one that was, "" for a new one; with any problem nothing is changed.

    The code of an item stays: jobs speak of it by its code.
    """
    book = store.book()
    parts, problems = _judged(rows, book, was)
    if problems:
        return problems
    item = parts.items[-1][1]
    kit = tuple(part for _, (of, part) in parts.kits if of == item.code)

    def work(connection: Connection) -> None:
        from sqlalchemy import delete, insert, select, update

        from tundish.store import tables

        body = {"kind": item.kind, "body": shelf.item_body(item)}
        if connection.execute(select(tables.items.c.code).where(tables.items.c.code == item.code)).first():
            connection.execute(update(tables.items).where(tables.items.c.code == item.code).values(**body))
        else:
            connection.execute(insert(tables.items), [{"code": item.code, **body}])
        connection.execute(delete(tables.kits).where(tables.kits.c.kit == item.code))
        _insert(connection, tables.kits, ({"kit": item.code, "item": part.item, "amount": part.amount} for part in kit))
        _keep_offers(connection, item.code, tuple(offer for _, offer in parts.offers))

    store.work(work)
    return ()


def remove_item(store: Store, code: str) -> str:
    """Take an item out of the catalogue; says in a sentence why it must stay, where something rests on it."""
    book = store.book()
    roles = [role for role, item in book.roles.items() if item == code]
    kits = [book.item(kit).name for kit, parts in book.kits.items() if any(part.item == code for part in parts)]
    held = book.stock.get(code, 0) or any(piece.item == code for piece in book.rack)
    why = f"it is what is meant by {roles[0]}" if roles else f"it is in {kits[0]}" if kits else "there is stock of it" if held else ""
    if why:
        return f"{book.item(code).name} stays: {why}."

    def work(connection: Connection) -> None:
        from sqlalchemy import delete

        from tundish.store import tables

        connection.execute(delete(tables.kits).where(tables.kits.c.kit == code))
        for table in (tables.offers, tables.item_files):
            connection.execute(delete(table).where(table.c.item == code))
        connection.execute(delete(tables.items).where(tables.items.c.code == code))

    store.work(work)
    return ""


def sheets_of(store: Store) -> Sheets:
    """The whole catalogue as tables."""
    return as_sheets(store.book(), supplied_kinds())


def replace_all(store: Store, sheets: Sheets) -> tuple[Problem, ...]:
    """Put a whole catalogue in place of what is there; with any problem nothing is changed. Stock, rack and jobs stay.

    What was there is kept until the next, for undo_replace.
    """
    parts, problems = from_sheets(sheets, supplied_kinds(), supplied_systems())
    book = store.book()
    held = _held_without(book, {item.code for _, item in parts.items})
    roles = sorted(set(book.roles) - {role for _, (role, _) in parts.roles})
    problems += tuple(Problem("items", f"{code} is missing, and there is stock of it") for code in held)
    problems += tuple(Problem("roles", f"{role} is missing, and rules ask for it") for role in roles)
    if problems:
        return problems

    def work(connection: Connection) -> None:
        before = _emptied(connection)
        shelf.fill(connection, _book_of(parts), "")
        shelf.keep_setting(connection, BEFORE, {"rows": before, "sign": _sign(_rows(connection))})

    store.work(work)
    return ()


def undo_replace(store: Store) -> str:
    """Put back the catalogue that was there before replace_all; says in a sentence why not, where that cannot be."""
    book = store.book()

    def work(connection: Connection) -> str:
        from tundish.store.tables import META

        kept = shelf.setting(connection, BEFORE)
        if not kept:
            return "No catalogue was opened that could be undone."
        if _sign(_rows(connection)) != kept["sign"]:
            return "The catalogue was changed since it was opened: nothing was undone."
        held = _held_without(book, {row["code"] for row in kept["rows"]["items"]})
        if held:
            return f"Nothing was undone: there is stock of {', '.join(held)}, which the catalogue before did not have."
        _emptied(connection)
        for name in _TABLES:
            _insert(connection, META.tables[name], kept["rows"][name])
        shelf.keep_setting(connection, BEFORE, {})
        return ""

    return store.work(work)


def _held_without(book: Book, codes: set[str]) -> list[str]:
    """What there is stock of that is not among the codes."""
    return sorted({*(code for code, amount in book.stock.items() if amount), *(piece.item for piece in book.rack)} - codes)


def _rows(connection: Connection) -> dict[str, list[dict[str, Any]]]:
    """All rows of the catalogue, by table."""
    from sqlalchemy import select

    from tundish.store.tables import META

    tables = {name: META.tables[name] for name in _TABLES}
    run = connection.execute
    return {name: [dict(row) for row in run(select(each).order_by(*each.primary_key)).mappings()] for name, each in tables.items()}


def _emptied(connection: Connection) -> dict[str, list[dict[str, Any]]]:
    """The rows of the catalogue, which are there no more."""
    from sqlalchemy import delete

    from tundish.store.tables import META

    rows = _rows(connection)
    for name in reversed(_TABLES):  # offers before the items whose names they are found by
        connection.execute(delete(META.tables[name]))
    return rows


def _sign(rows: Mapping[str, list[dict[str, Any]]]) -> str:
    """What tells one catalogue from another."""
    return hashlib.sha256(json.dumps(rows, sort_keys=True).encode()).hexdigest()


def _judged(rows: ItemRows, book: Book, was: str) -> tuple[Parts, tuple[Problem, ...]]:
    """The records of one item among all others, and what is wrong with it."""
    problems: list[Problem] = []
    code = rows.item.get("code", "")
    if was and code != was:
        problems.append(Problem("code", f"stays {was}: jobs speak of it by its code"))
    if not was and code in book.items:
        problems.append(Problem("code", f"{code} is {book.items[code].name} already"))
    tables = {
        "items": (Row("item", rows.item),),
        "ends": _placed("end", ({**cells, "item": code, "end": str(place)} for place, cells in enumerate(rows.ends, 1))),
        "kits": _placed("part", ({**cells, "kit": code} for cells in rows.kit)),
        OFFERS: _placed("offer", ({**cells, "item": code} for cells in rows.offers)),
    }
    mine = parts_of(Raw(supplied_kinds(), supplied_systems(), tables), problems)
    others = tuple((f"item {each.code}", each) for each in book.items.values() if each.code not in {code, was})
    kits = tuple((f"kit {kit}", (kit, part)) for kit, parts in book.kits.items() if kit not in {code, was} for part in parts)
    suppliers = tuple((f"supplier {each.key}", each) for each in book.suppliers.values())
    whole = replace(mine, items=(*others, *mine.items), kits=(*kits, *mine.kits), suppliers=suppliers)
    return whole, (*problems, *check(whole))


def _placed(what: str, rows: Iterable[Cells]) -> tuple[Row, ...]:
    return tuple(Row(f"{what} {place}", cells) for place, cells in enumerate(rows, 1))


def _keep_offers(connection: Connection, code: str, wanted: tuple[Offer, ...]) -> None:
    """The offers of an item as wanted; one of the same supplier and code stays the same row, so that its old prices stay with it."""
    from sqlalchemy import delete, select, update

    from tundish.store.tables import offers

    there = {(row.supplier, row.code): row.id for row in connection.execute(select(offers).where(offers.c.item == code))}
    new = []
    for one in wanted:
        row_id = there.pop((one.supplier, one.code), 0)
        if row_id:
            connection.execute(update(offers).where(offers.c.id == row_id).values(shelf.offer_row(one)))
        else:
            new.append(shelf.offer_row(one))
    if there:
        connection.execute(delete(offers).where(offers.c.id.in_(list(there.values()))))
    _insert(connection, offers, new)


def _insert(connection: Connection, table: Any, rows: Iterable[Mapping[str, Any]]) -> None:
    from sqlalchemy import insert

    values = list(rows)
    if values:
        connection.execute(insert(table), values)


def _book_of(parts: Parts) -> Book:
    """What is put into the tables: without stock, rack and rule figures, which stay."""
    items: dict[str, Item] = {item.code: item for _, item in parts.items}
    kits: dict[str, tuple[KitPart, ...]] = {}
    for _, (kit, part) in parts.kits:
        kits[kit] = (*kits.get(kit, ()), part)
    offers: dict[str, list[Offer]] = {}
    for _, offer in parts.offers:
        offers.setdefault(offer.item, []).append(offer)
    suppliers = {supplier.key: supplier for _, supplier in parts.suppliers}
    return Book(items, dict(role for _, role in parts.roles), kits, suppliers, {code: tuple(few) for code, few in offers.items()}, {})
