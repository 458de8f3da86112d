"""What the supplied catalogue has gained since it was put here, added; what the user changed or took out is left alone.

Each supplied row is known by a key, and a key once seen is never brought again. A store of a version that kept no such record cannot
tell what was taken out from what is new: there an item that is held keeps its own offers and kit parts, unless it has none.

Of an item that is held, its sheet may have gained: sizes that it lacks come in, and ends beyond those it has, where those are as
supplied; the kind that has such sizes comes with them.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any, Final
from zlib import crc32

from tundish.catalogue.book import Book
from tundish.catalogue.item import Offer
from tundish.store import shelf

if TYPE_CHECKING:
    from sqlalchemy import Connection

SUPPLIER: Final = "supplier"
ITEM: Final = "item"
ROLE: Final = "role"
KIT: Final = "kit part"
OFFER: Final = "offer"
SHEET: Final = "sheet"
_TABLES: Final = {SUPPLIER: "suppliers", ITEM: "items", ROLE: "roles", KIT: "kits", OFFER: "offers"}
_SAID: Final = {SUPPLIER: "supplier", ITEM: "item", ROLE: "use of an item", KIT: "part of a kit", OFFER: "offer", SHEET: "maker's sheet"}
_SAID_MANY: Final = {
    SUPPLIER: "suppliers",
    ITEM: "items",
    ROLE: "uses of items",
    KIT: "parts of kits",
    OFFER: "offers",
    SHEET: "makers' sheets with what they lacked",
}
_MOST_NAMED: Final = 3


@dataclass(frozen=True, slots=True)
class Supplied:
    """A supplied row: what it is and its key, further keys it would clash with, the rows it rests on, whose it is, and the row."""

    what: str
    key: str
    row: dict[str, Any]
    rests_on: tuple[tuple[str, str], ...] = ()
    owner: str = ""
    clashes: tuple[str, ...] = ()


def top_up(connection: Connection, book: Book) -> str:
    """Add what a supplied book has beyond what was seen here; says in words what was added, "" where nothing was.

    What rests on an item or supplier that was taken out waits until that is back.
    """
    from sqlalchemy import insert, select

    from tundish.store.tables import META, supplied

    seen = {(row.what, row.key) for row in connection.execute(select(supplied))}
    wanted = [one for one in _rows(book) if (one.what, one.key) not in seen]
    if not wanted:
        return ""
    there = set(_there(connection))
    own, sheets = _own(there, seen), _sheets(connection)
    settled: list[Supplied] = []
    added: list[Supplied] = []
    for one in wanted:
        if (one.what, one.key) in there or any((one.what, key) in there for key in one.clashes) or (one.what, one.owner) in own:
            settled.append(one)
        elif there.issuperset(one.rests_on):
            (added if one.what != SHEET or _gained(connection, one.row, sheets) else settled).append(one)
            there.add((one.what, one.key))
    for what, table in _TABLES.items():
        rows = [one.row for one in added if one.what == what]
        if rows:
            connection.execute(insert(META.tables[table]), rows)
    if settled or added:
        connection.execute(insert(supplied), [{"what": one.what, "key": one.key} for one in (*settled, *added)])
    return _in_words(added, unknown=not seen)


def _rows(book: Book) -> Iterator[Supplied]:
    """Every row of a supplied book, what others rest on first."""
    for supplier in book.suppliers.values():
        yield Supplied(SUPPLIER, supplier.key, {"key": supplier.key, "body": shelf.supplier_body(supplier)})
    for item in book.items.values():
        body = shelf.item_body(item)
        yield Supplied(ITEM, item.code, {"code": item.code, "kind": item.kind, "body": body})
        sheet = {"sizes": body["sizes"], "ends": body["ends"]}
        row = {"code": item.code, "kind": item.kind, **sheet}
        yield Supplied(SHEET, f"{item.code}/{_sign(sheet)}", row, ((ITEM, item.code),))
    for role, code in book.roles.items():
        yield Supplied(ROLE, role, {"role": role, "item": code}, ((ITEM, code),))
    for kit, parts in book.kits.items():
        for part in parts:
            yield Supplied(KIT, f"{kit}/{part.item}", {"kit": kit, **asdict(part)}, ((ITEM, kit), (ITEM, part.item)), kit)
    for offers in book.offers.values():
        for one in offers:
            rests_on = ((ITEM, one.item), (SUPPLIER, one.supplier))
            yield Supplied(OFFER, f"{one.item}/{one.key}", shelf.offer_row(one), rests_on, one.item, (_size_key(one),))


def _sign(sheet: Mapping[str, Any]) -> str:
    """What tells one state of a sheet from another."""
    return f"{crc32(json.dumps(sheet, sort_keys=True).encode()):08x}"


def _sheets(connection: Connection) -> dict[str, dict[str, Any]]:
    """What is said of every item that is here."""
    from sqlalchemy import select

    from tundish.store.tables import items

    return {row.code: row.body for row in connection.execute(select(items.c.code, items.c.body))}


def _gained(connection: Connection, sheet: Mapping[str, Any], held: Mapping[str, dict[str, Any]]) -> bool:
    """Give an item the sizes that it lacks, and the ends beyond its own where those are as supplied; whether there were any.

    It is then of the kind that has those sizes: of another they could not be kept.
    """
    from sqlalchemy import update

    from tundish.store.tables import items

    body = held.get(sheet["code"])
    if body is None:
        return False
    sizes = {**sheet["sizes"], **body["sizes"]}
    ends = sheet["ends"] if sheet["ends"][: len(body["ends"])] == body["ends"] else body["ends"]
    if sizes == body["sizes"] and ends == body["ends"]:
        return False
    connection.execute(
        update(items).where(items.c.code == sheet["code"]).values(kind=sheet["kind"], body={**body, "sizes": sizes, "ends": ends})
    )
    return True


def _there(connection: Connection) -> Iterator[tuple[str, str]]:
    """What is here, by the same keys; an offer also by its size, of which an item has one from each supplier."""
    from sqlalchemy import select

    from tundish.store import tables

    run = connection.execute
    yield from ((SUPPLIER, row.key) for row in run(select(tables.suppliers.c.key)))
    yield from ((ITEM, row.code) for row in run(select(tables.items.c.code)))
    yield from ((ROLE, row.role) for row in run(select(tables.roles.c.role)))
    yield from ((KIT, f"{row.kit}/{row.item}") for row in run(select(tables.kits)))
    for row in run(select(tables.offers)):
        yield OFFER, f"{row.item}/{row.supplier}/{row.code}"
        yield OFFER, _size_key(row)


def _own(there: set[tuple[str, str]], seen: set[tuple[str, str]]) -> set[tuple[str, str]]:
    """Of which items the kit parts, or the offers, are the user's own affair: what is here and was never seen as supplied."""
    owners = {(what, key.partition("/")[0]) for what, key in there if what in {KIT, OFFER}}
    return {(what, code) for what, code in owners if (ITEM, code) not in seen}


def _size_key(offer: Offer | Any) -> str:
    return f"{offer.item}/{offer.supplier}: {offer.pack:g} of {offer.length:g} x {offer.width:g}"


def _in_words(added: Iterable[Supplied], *, unknown: bool) -> str:
    """What was added, the first few items by name."""
    rows = list(added)
    if not rows:
        return ""
    counts = {what: sum(one.what == what for one in rows) for what in _SAID}
    told = [f"{count} {(_SAID if count == 1 else _SAID_MANY)[what]}" for what, count in counts.items() if count]
    names = [str(one.row["body"]["name"]) for one in rows if one.what == ITEM]
    more = f" and {len(names) - _MOST_NAMED} more" if len(names) > _MOST_NAMED else ""
    named = f" ({', '.join(names[:_MOST_NAMED])}{more})" if names else ""
    again = " What you once took out may be among it: taken out again, it stays out." if unknown and names else ""
    return f"Added to your catalogue from this version's: {', '.join(told)}{named}. Nothing of yours was changed.{again}"
