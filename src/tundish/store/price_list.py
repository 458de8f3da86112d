"""Price lists of suppliers: looked at row by row, then taken in whole or not at all, with the old prices kept; and undone."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from itertools import chain, islice
from operator import itemgetter
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from tundish.errors import TundishError
from tundish.store import shelf
from tundish.store.ledger import now
from tundish.store.packed import CannotReadListError
from tundish.store.price_rows import Fate, changed_since, fetched, put, put_back, uncollected
from tundish.store.sheet_rows import Row, rows_of

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
_CHANGES: Final = ("new", "changed")
_LOOKED_FOR: Final = 40
"""Rows within which the heads must come."""
_PLAIN: Final = re.compile(r"(?=.*[1-9])(?:0|[1-9]\d{0,5})(?:\.\d{1,4})?", re.ASCII)
"""A price that is kept as it is written."""
_MONEY: Final = re.compile(r"£?\s*(-?[\d.,'\s]*\d)\s*(?:£|GBP)?", re.IGNORECASE)
_GROUPED: Final = re.compile(r"\d{1,3}(?:[.,'\s]\d{3})+|\d+")
"""The whole pounds of a price, thousands apart or not."""
_OTHER_MONEY: Final = re.compile(r"[€$¥]|\b(?:EUR|USD)\b", re.IGNORECASE)
_DECIMAL_COMMA: Final = re.compile(r"\d,\d{1,2}\b|\.\d{3},")
_DECIMAL_POINT: Final = re.compile(r"\d\.\d{1,2}\b|,\d{3}\.")
"""How a price with each decimal sign is known; the one met more often in the first rows is the list's."""


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


def keep_columns(store: Store, supplier: str, columns: Mapping[str, str]) -> None:
    """Remember the heads of a supplier's lists."""
    store.keep_setting(_setting(supplier), dict(columns))


def look_at(store: Store, path: Path, supplier: str, columns: Mapping[str, str] | None = None, day: str = "") -> Preview:
    """What a list would change for a supplier. `columns` names its heads once; they are remembered with the first that is taken in.

    Raises CannotReadListError where the file is no price list or its columns are not to be found.
    """
    known, day = columns or columns_of(store, supplier), day or now()[:10]
    kept, counts = [], Counter[str]()
    with uncollected():
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
        put(connection, import_id, preview.supplier, wanted)
        shelf.keep_setting(connection, _setting(preview.supplier), dict(preview.columns))
        return import_id

    with uncollected():
        return store.work(work)


def undo(store: Store, supplier: str) -> int:
    """Put back every price of a supplier's last import, new ones gone; gives how many. Refused whole where one was changed since."""

    def work(connection: Connection) -> int:
        from sqlalchemy import select, update

        from tundish.store.tables import imports

        last = select(imports).where(imports.c.supplier == supplier, imports.c.undone == "").order_by(imports.c.id.desc())
        row = connection.execute(last).first()
        if row is None:
            raise NothingToUndoError(f"No price list of {supplier} is there to be undone.")
        code = changed_since(connection, row.id, supplier)
        if code:
            raise NothingToUndoError(f"The price of {code} was changed since {row.file} was taken in: nothing was undone.")
        connection.execute(update(imports).where(imports.c.id == row.id).values(undone=now()))
        return put_back(connection, row.id)

    return store.work(work)


def old_prices(store: Store, supplier: str, code: str) -> tuple[tuple[str, Decimal], ...]:
    """The prices a supplier's code had before, with the day each held from, oldest first."""

    def work(connection: Connection) -> tuple[tuple[str, Decimal], ...]:
        from sqlalchemy import select

        from tundish.store.tables import imports, price_changes

        p = price_changes.c
        mine = (imports.c.supplier == supplier, imports.c.undone == "", p.code == code, p.was_price.is_not(None))
        joined = select(p.was_valid_from, p.was_price).join(imports, imports.c.id == p["import"])
        return tuple((day, Decimal(price)) for day, price in connection.execute(joined.where(*mine).order_by(p.id)))

    return store.work(work)


def money(words: str, *, comma: bool) -> Decimal | str:
    """A price from a cell, or the words that say why it is none."""
    if words.startswith(("=", "+", "@")):
        return "is a formula, not a price"
    if _OTHER_MONEY.search(words):
        return f'"{words[:30]}" is not in pounds'
    match = _MONEY.fullmatch(words.strip())
    if match is None:
        return f'"{words[:30]}" is not a price' if words else "is blank, or a formula that gave nothing"
    pounds, sign, pence = match[1].lstrip("-").partition("," if comma else ".")
    if not _GROUPED.fullmatch(pounds) or (sign and not pence.isdecimal()):
        return f'"{words[:30]}" is written otherwise than the other prices: they have a decimal {"comma" if comma else "point"}'
    amount = Decimal(f"{re.sub(r'[^0-9]', '', pounds)}.{pence or 0}")
    if match[1].startswith("-") or not 0 < amount < 1_000_000:  # noqa: PLR2004
        return f'"{words[:30]}" is not a price to pay'
    return amount


def _streamed(store: Store, of: tuple[Path, str], known: Mapping[str, str], day: str) -> tuple[dict[str, str], Iterator[Fate]]:
    """The heads of a supplier's list, and its fates as they are read."""
    path, supplier = of
    rows = rows_of(path)
    places, heads = _heads(path, rows, known)
    return heads, _fates(rows, places, store.work(lambda connection: _known(connection, supplier, heads, day)))


def _stamp(path: Path) -> tuple[int, int]:
    stat = path.stat()
    return stat.st_size, stat.st_mtime_ns


@dataclass(frozen=True, slots=True)
class _Known:
    offers: Mapping[str, tuple[Any, ...]]
    twice: set[str]
    items: frozenset[str]
    heads: Mapping[str, str]
    seen: dict[str, int]
    day: str


def _known(connection: Connection, supplier: str, heads: Mapping[str, str], day: str) -> _Known:
    """The offers of a supplier by their codes, and the codes of the trader's own items."""
    from sqlalchemy import select

    from tundish.store.tables import items, offers

    c = offers.c
    rows = fetched(connection, select(c.code, c.id, c.length, c.pack, c.price, c.valid_from, c.least).where(c.supplier == supplier))
    held = {row[0]: row for row in rows}
    twice = {code for code, count in Counter([row[0] for row in rows]).items() if count > 1} if len(held) < len(rows) else set()
    return _Known(held, twice, frozenset(connection.execute(select(items.c.code)).scalars()), heads, {}, day)


def _fates(rows: Iterator[Row], places: Mapping[str, int], known: _Known) -> Iterator[Fate]:
    """What becomes of each row. A known code with a plain price, as most have, is told at once; all else is looked into."""
    waiting = list(islice(rows, 200))
    # After the cells of a row stand empty ones, for rows cut short and, the last, for what the list does not say.
    cells_of, short = itemgetter(*(places.get(name, -1) for name in COLUMNS)), ("",) * (max(places.values()) + 1)
    prices = [cells_of(cells + short)[1] for _, cells in waiting]
    comma = sum(bool(_DECIMAL_COMMA.search(each)) for each in prices) > sum(bool(_DECIMAL_POINT.search(each)) for each in prices)
    plain, offer_of, seen, twice, day, made = _PLAIN.fullmatch, known.offers.get, known.seen, known.twice, known.day, tuple.__new__
    for number, cells in chain(waiting, rows):
        said = cells_of(cells + short)
        code, price, pack_words, least_words, _ = said
        old = offer_of(code)
        pack, least = _count(pack_words), _count(least_words)
        if old is None or comma or pack is None or least is None or code in seen or code in twice or not plain(price):
            yield _fate(number, said, known, comma=comma)
            continue
        seen[code] = number
        _, offer_id, length, was_pack, was_price, was_from, was_least = old
        pack, least = was_pack if length else pack or was_pack, int(least) or was_least
        if pack == was_pack and least == was_least and (price == was_price or float(price) == float(was_price)):
            yield Fate(number, code, "unchanged")
        else:
            before = (was_pack, was_price, was_from, was_least)
            yield made(Fate, (number, code, "changed", "", "", offer_id, pack, price, day, least, *before))


def _fate(number: int, said: tuple[str, ...], known: _Known, *, comma: bool) -> Fate:
    code, price, pack_words, least_words, item = said
    old = known.offers.get(code)
    why = "" if code else f"{known.heads['code']} is blank"
    if old or item:
        first = known.seen.setdefault(code, number)
        if first != number:
            why = why or f"the code stands in row {first} already"
    if comma or not _PLAIN.fullmatch(price):
        found = money(price, comma=comma)
        why, price = (why or f"{known.heads['price']} {found}", "") if isinstance(found, str) else (why, str(found))
    pack, least = _count(pack_words), _count(least_words)
    if code in known.twice:
        why = why or "you have this code for two items"
    if why or pack is None or least is None:
        return Fate(number, code, "refused", why or _no_count(known.heads, pack_words, least_words))
    if old is None:
        if not item:
            return Fate(number, code, "not used", "no item of yours has this code")
        if item not in known.items:
            return Fate(number, code, "refused", f'{known.heads["item"]} "{item[:40]}" is no item of the catalogue')
        return Fate(number, code, "new", "", item, 0, pack or 1.0, price, known.day, int(least or 1))
    _, offer_id, length, *before = old
    old_pack, old_price, _, old_least = before
    pack, least = old_pack if length else pack or old_pack, int(least) or old_least
    if pack == old_pack and least == old_least and (price == old_price or Decimal(price) == Decimal(old_price)):
        return Fate(number, code, "unchanged")
    return Fate(number, code, "changed", "", "", offer_id, pack, price, known.day, int(least), *before)


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


def _no_count(heads: Mapping[str, str], pack: str, least: str) -> str:
    """Which of the two is no number, and what there is to do about one with a unit."""
    name, words = ("pack", pack) if _count(pack) is None else ("least", least)
    cure = "; write the number alone, in the unit that the item is counted in" if words[:1].isdecimal() else ""
    return f'{heads[name]} "{words[:30]}" is not a number above nought{cure}'


@lru_cache(maxsize=1024)
def _count(words: str) -> float | None:
    """A number of things; 0 where none is given, None where it is no number."""
    if not words:
        return 0.0
    if _PLAIN.fullmatch(words):
        return float(words)
    amount = money(words, comma=False)
    return None if isinstance(amount, str) else float(amount)


def _setting(supplier: str) -> str:
    return f"price columns {supplier}"
