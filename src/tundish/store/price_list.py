"""Price lists of suppliers: looked at row by row, then taken in whole or not at all, with the old prices kept; and undone."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal, InvalidOperation
from itertools import chain, islice
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from tundish.catalogue.item import Offer
from tundish.errors import TundishError
from tundish.store import shelf
from tundish.store.ledger import now
from tundish.store.sheet_rows import CannotReadListError, Row, rows_of

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from tundish.store.keep import Store

COLUMNS: Final[Mapping[str, tuple[str, ...]]] = {
    "code": ("code", "product code", "item code", "part no", "part number", "sku", "stock code", "article"),
    "price": ("price", "net price", "nett", "net", "trade price", "unit price", "your price", "cost"),
    "pack": ("pack", "pack size", "pack qty", "per", "unit qty"),
    "least": ("minimum", "min qty", "min order", "moq"),
    "item": ("item", "our code", "your code"),
}
"""What a list may say, and the heads it is known by unless the supplier's own are remembered; code and price it must."""
MOST_HELD: Final = 100_000
SHOWN: Final = 2_000
"""How many changes, and how many of the rows that change nothing, a look at a list holds."""
_BATCH: Final = 10_000
_CHANGES: Final = ("new", "changed")
_LOOKED_FOR: Final = 40
"""Rows within which the heads must come."""
_MONEY: Final = re.compile(r"£?\s*(-?[\d.,'\s]*\d)\s*(?:£|GBP)?", re.IGNORECASE)
_DECIMAL_COMMA: Final = re.compile(r"\d,\d{1,2}\b|\.\d{3},")
_DECIMAL_POINT: Final = re.compile(r"\d\.\d{1,2}\b|,\d{3}\.")
"""How a price with each decimal sign is known; the one met more often in the first rows is the list's."""


@dataclass(frozen=True, slots=True)
class Fate:
    """What becomes of one row: new, changed, unchanged, not used or refused; `why` says it in words."""

    row: int
    code: str
    fate: str
    why: str = ""
    offer: Offer | None = None
    offer_id: int = 0
    before: Offer | None = None


@dataclass(frozen=True, slots=True)
class Preview:
    """A price list looked at; nothing is changed yet. `fates` holds what is new or changed, and of the rest the first of each fate.

    Of a list that changes more than can be held, what is beyond is read again when it is taken in; `counts` are of all rows.
    """

    supplier: str
    path: Path
    columns: Mapping[str, str]
    fates: tuple[Fate, ...]
    counts: Mapping[str, int]
    day: str
    stamp: tuple[int, int]

    @property
    def file(self) -> str:
        """The name of the file."""
        return self.path.name

    def count(self, fate: str) -> int:
        """How many rows have a fate."""
        return self.counts.get(fate, 0)


class NothingToUndoError(TundishError):
    """There is no import of this supplier that was not undone, or its prices were changed since."""


def heads_in(path: Path) -> tuple[str, ...]:
    """The heads that a list may be mapped by: of its first rows the one with most words, before the first price."""
    best: tuple[str, ...] = ()
    for _, cells in islice(rows_of(path), _LOOKED_FOR):
        words = [cell for cell in cells if cell and isinstance(money(cell, comma=False), str) and isinstance(money(cell, comma=True), str)]
        if len(words) > len([cell for cell in best if cell]):
            best = cells
    return tuple(dict.fromkeys(cell for cell in best if cell))


def columns_of(store: Store, supplier: str) -> dict[str, str]:
    """The heads that are remembered for a supplier: "" for what its list does not say."""
    return dict(store.setting(_setting(supplier)) or {})


def look_at(store: Store, path: Path, supplier: str, columns: Mapping[str, str] | None = None, day: str = "") -> Preview:
    """What a list would change for a supplier. `columns` names its heads once; they are remembered with the first that is taken in.

    Raises CannotReadListError where the file is no price list or its columns are not to be found.
    """
    known, day = columns or columns_of(store, supplier), day or now()[:10]
    kept, counts = [], Counter[str]()
    heads, fates = _streamed(store, (path, supplier), known, day)
    for each in fates:
        counts[each.fate] += 1
        if counts[each.fate] <= (MOST_HELD if each.fate in _CHANGES else SHOWN):
            kept.append(each)
    # What was said not to be in the list stays said.
    told = {name: head for name, head in known.items() if not head} | heads
    return Preview(supplier, path, told, tuple(kept), counts, day, _stamp(path))


def take_in(store: Store, preview: Preview) -> int:
    """Take every new and changed price in, in one transaction; gives the number of the import, by which it is undone."""
    fates: Iterator[Fate] = iter(preview.fates)
    if any(preview.count(fate) > MOST_HELD for fate in _CHANGES):
        if _stamp(preview.path) != preview.stamp:
            raise CannotReadListError(preview.path, "it was changed since it was looked at; open it again")
        fates = _streamed(store, (preview.path, preview.supplier), preview.columns, preview.day)[1]
    wanted = (each for each in fates if each.fate in _CHANGES)

    def work(connection: Connection) -> int:
        from sqlalchemy import insert

        from tundish.store.tables import imports

        row = {"supplier": preview.supplier, "file": preview.file, "made": now(), "undone": ""}
        made = connection.execute(insert(imports).values(row))
        import_id = int(made.inserted_primary_key[0]) if made.inserted_primary_key else 0
        while batch := list(islice(wanted, _BATCH)):
            _take_batch(connection, import_id, batch)
        shelf.keep_setting(connection, _setting(preview.supplier), dict(preview.columns))
        return import_id

    return store.work(work)


def undo(store: Store, supplier: str) -> int:
    """Put back every price of a supplier's last import, new ones gone; gives how many. Refused whole where one was changed since."""

    def work(connection: Connection) -> int:
        from sqlalchemy import delete, select, update

        from tundish.store.tables import imports, offers, price_changes

        last = select(imports).where(imports.c.supplier == supplier, imports.c.undone == "").order_by(imports.c.id.desc())
        row = connection.execute(last).first()
        if row is None:
            raise NothingToUndoError(f"No price list of {supplier} is there to be undone.")
        changes = list(connection.execute(select(price_changes).where(price_changes.c["import"] == row.id).order_by(price_changes.c.id)))
        for change in changes:
            there = connection.execute(select(offers).where(offers.c.id == change.offer)).first()
            if there is None or there.price != change.after["price"]:
                raise NothingToUndoError(
                    f"The price of {change.after['code']} was changed since {row.file} was taken in: nothing was undone."
                )
            if change.before is None:
                connection.execute(delete(offers).where(offers.c.id == change.offer))
            else:
                connection.execute(update(offers).where(offers.c.id == change.offer).values(change.before))
        connection.execute(update(imports).where(imports.c.id == row.id).values(undone=now()))
        return len(changes)

    return store.work(work)


def old_prices(store: Store, supplier: str, code: str) -> tuple[tuple[str, Decimal], ...]:
    """The prices a supplier's code had before, with the day each held from, oldest first."""

    def work(connection: Connection) -> tuple[tuple[str, Decimal], ...]:
        from sqlalchemy import select

        from tundish.store.tables import imports, price_changes

        joined = select(price_changes.c.before).join(imports, imports.c.id == price_changes.c["import"])
        rows = connection.execute(
            joined.where(imports.c.supplier == supplier, imports.c.undone == "").order_by(price_changes.c.id)
        ).scalars()
        return tuple((row["valid_from"], Decimal(row["price"])) for row in rows if row and row["code"] == code)

    return store.work(work)


def money(words: str, *, comma: bool) -> Decimal | str:
    """A price from a cell, or the words that say why it is none."""
    if words.startswith(("=", "+", "@")):
        return "is a formula, not a price"
    match = _MONEY.fullmatch(words.strip())
    if match is None:
        return f'"{words[:30]}" is not a price' if words else "has no price"
    plain = re.sub(r"[\s']", "", match[1])
    plain = plain.replace(".", "").replace(",", ".") if comma else plain.replace(",", "")
    try:
        amount = Decimal(plain)
    except InvalidOperation:
        return f'"{words[:30]}" is not a price'
    if not 0 < amount < 1_000_000:  # noqa: PLR2004
        return f'"{words[:30]}" is not a price to pay'
    return amount


def _streamed(store: Store, of: tuple[Path, str], known: Mapping[str, str], day: str) -> tuple[dict[str, str], Iterator[Fate]]:
    """The heads of a supplier's list, and its fates as they are read."""
    path, supplier = of
    offers = store.work(lambda connection: _offers(connection, supplier))
    rows = rows_of(path)
    places, heads = _heads(path, rows, known)
    items = store.work(_codes)
    return heads, _fates(rows, places, _Known(supplier, offers, items, {}, day))


def _stamp(path: Path) -> tuple[int, int]:
    stat = path.stat()
    return stat.st_size, stat.st_mtime_ns


def _take_batch(connection: Connection, import_id: int, batch: list[Fate]) -> None:
    """Change and add the prices of a batch, and keep what was before."""
    from sqlalchemy import bindparam, func, insert, select, update

    from tundish.store.tables import offers, price_changes

    last = int(connection.execute(select(func.max(offers.c.id))).scalar() or 0)
    changed, new, changes = [], [], []
    for each in batch:
        offer = each.offer
        if offer is None:
            continue
        offer_id = each.offer_id
        if offer_id:
            changed.append({"at": offer_id, **_terms(offer)})
        else:
            last += 1
            offer_id = last
            new.append({"id": last, **shelf.offer_row(offer)})
        before = _terms(each.before) | {"code": offer.code} if each.before else None
        changes.append({"import": import_id, "offer": offer_id, "before": before, "after": _terms(offer) | {"code": offer.code}})
    if changed:
        terms: dict[str, Any] = {name: bindparam(name) for name in _TERMS}
        connection.execute(update(offers).where(offers.c.id == bindparam("at")).values(terms), changed)
    if new:
        connection.execute(insert(offers), new)
    if changes:
        connection.execute(insert(price_changes), changes)


_TERMS: Final = ("price", "pack", "least", "valid_from")
"""What a price list changes of an offer."""


def _terms(offer: Offer) -> dict[str, object]:
    return {"price": str(offer.price), "pack": offer.pack, "least": offer.least, "valid_from": offer.valid_from}


def _codes(connection: Connection) -> frozenset[str]:
    from sqlalchemy import select

    from tundish.store.tables import items

    return frozenset(connection.execute(select(items.c.code)).scalars())


@dataclass(frozen=True, slots=True)
class _Known:
    supplier: str
    offers: Mapping[str, tuple[tuple[int, Offer], ...]]
    items: frozenset[str]
    seen: dict[str, int]
    day: str


def _fates(rows: Iterator[Row], places: Mapping[str, int], known: _Known) -> Iterator[Fate]:
    waiting = list(islice(rows, 200))
    prices = [_cell(cells, places, "price") for _, cells in waiting]
    comma = sum(bool(_DECIMAL_COMMA.search(each)) for each in prices) > sum(bool(_DECIMAL_POINT.search(each)) for each in prices)
    for number, cells in chain(waiting, rows):
        yield _fate(number, {name: _cell(cells, places, name) for name in places}, known, comma=comma)


def _fate(number: int, said: Mapping[str, str], known: _Known, *, comma: bool) -> Fate:
    code = said["code"]
    price = money(said["price"], comma=comma)
    pack, least = _count(said.get("pack", "")), _count(said.get("least", ""))
    mine = known.offers.get(code, ())
    why = "has no code" if not code else f"the code stands in row {known.seen[code]} already" if code in known.seen else ""
    if mine or said.get("item"):
        known.seen.setdefault(code, number)
    why = why or (price if isinstance(price, str) else "")
    why = why or ("you have this code for two items" if len(mine) > 1 else "")
    if why or isinstance(price, str) or pack is None or least is None:
        return Fate(number, code, "refused", why or "pack or minimum is not a number above nought")
    if not mine:
        unused = Fate(number, code, "not used", "no item of yours has this code")
        return _new(unused, said, known, Offer("", "", "", pack or 1, price, known.day, least=int(least or 1)))
    return _changed(number, mine[0], price, (pack, least), known.day)


def _changed(number: int, mine: tuple[int, Offer], price: Decimal, pack_and_least: tuple[float, float], day: str) -> Fate:
    offer_id, old = mine
    pack, least = pack_and_least
    after = replace(old, price=price, pack=old.pack if old.length else pack or old.pack, least=int(least) or old.least, valid_from=day)
    if (after.price, after.pack, after.least) == (old.price, old.pack, old.least):
        return Fate(number, old.code, "unchanged")
    by = (price - old.price) / old.price * 100 if old.price else Decimal(0)
    return Fate(number, old.code, "changed", f"£{old.price} to £{price}, {'+' if by >= 0 else '−'}{abs(by):.1f} %", after, offer_id, old)


def _new(unused: Fate, said: Mapping[str, str], known: _Known, offer: Offer) -> Fate:
    item = said.get("item", "")
    if not item:
        return unused
    if item not in known.items:
        return replace(unused, fate="refused", why=f'"{item[:40]}" is no item of the catalogue')
    return replace(unused, fate="new", why=f"for {item}", offer=replace(offer, item=item, supplier=known.supplier, code=unused.code))


def _heads(path: Path, rows: Iterator[Row], known: Mapping[str, str]) -> tuple[dict[str, int], dict[str, str]]:
    """Where the columns are, from the first row that names code and price; rows above it, titles and merged heads, are passed over."""
    read: list[str] = []
    for count, (_, cells) in enumerate(rows):
        lowered = [cell.lower() for cell in cells]
        places = {}
        for name, words in COLUMNS.items():
            if known.get(name, name) == "":
                continue  # the list does not say it
            wanted = (known[name].lower(),) if known.get(name) else words
            place = next((lowered.index(word) for word in wanted if word in lowered), None)
            if place is not None:
                places[name] = place
        if {"code", "price"} <= set(places):
            return places, {name: cells[place] for name, place in places.items()}
        read += [cell for cell in cells if cell][:8] if count < _LOOKED_FOR else []
        if count >= _LOOKED_FOR:
            break
    named = ", ".join(f'"{word[:30]}"' for word in read[:12]) or "nothing"
    raise CannotReadListError(path, f"no row names a column for the code and one for the price; say which they are. It begins with {named}")


def _offers(connection: Connection, supplier: str) -> dict[str, tuple[tuple[int, Offer], ...]]:
    from sqlalchemy import select

    from tundish.store.tables import offers

    made: dict[str, tuple[tuple[int, Offer], ...]] = {}
    for row in connection.execute(select(offers).where(offers.c.supplier == supplier)):
        made[row.code] = (*made.get(row.code, ()), (row.id, shelf.offer_of(row)))
    return made


def _cell(cells: tuple[str, ...], places: Mapping[str, int], name: str) -> str:
    place = places[name]
    return cells[place] if place < len(cells) else ""


def _count(words: str) -> float | None:
    """A number of things; 0 where none is given, None where it is no number."""
    if not words:
        return 0.0
    amount = money(words, comma=False)
    return None if isinstance(amount, str) else float(amount)


def _setting(supplier: str) -> str:
    return f"price columns {supplier}"
