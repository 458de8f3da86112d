"""Price lists of suppliers: looked at row by row, then taken in whole or not at all, with the old prices kept; and undone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from decimal import Decimal
from itertools import chain, count, islice
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from tundish.errors import TundishError
from tundish.store import shelf
from tundish.store.ledger import now
from tundish.store.packed import CannotReadListError
from tundish.store.price_fates import COLUMNS, Fate, Known, Told, fates_of, money
from tundish.store.price_rows import changed_since, fetched, put, put_back, uncollected
from tundish.store.sheet_rows import Block, blocks_of

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from tundish.store.keep import Store

MOST_HELD: Final = 100_000
SHOWN: Final = 2_000
"""How many changes, and how many of the rows that change nothing, a look at a list holds."""
_CHANGES: Final = ("new", "changed")
_LOOKED_FOR: Final = 40
"""Rows within which the heads must come."""


@dataclass(frozen=True, slots=True)
class Preview:
    """A price list looked at; nothing is changed yet. `held` is what is new or changed, and of the rest the first of each fate.

    Of a list that changes more than can be held, what is beyond is read again when it is taken in; `counts` are of all rows.
    """

    supplier: str
    path: Path
    columns: Mapping[str, str]
    held: tuple[Told, ...]
    counts: Mapping[str, int]
    day: str
    stamp: tuple[int, int]

    @property
    def file(self) -> str:
        """The name of the file."""
        return self.path.name

    @property
    def fates(self) -> tuple[Fate, ...]:
        """The fates that are held, in the order of the list."""
        return tuple(each for few in self.held for each in few.each())

    def of(self, fate: str, most: int) -> tuple[Fate, ...]:
        """The first of one fate."""
        return tuple(islice((each for few in self.held for each in few.of(fate).each()), most))

    def count(self, fate: str) -> int:
        """How many rows have a fate."""
        return self.counts.get(fate, 0)


class NothingToUndoError(TundishError):
    """There is no import of this supplier that was not undone, or its prices were changed since."""


def heads_in(path: Path) -> tuple[str, ...]:
    """The heads that a list may be mapped by: of its first rows the one with most words, before the first price."""
    best: tuple[str, ...] = ()
    for cells, _, _ in islice(_rows(blocks_of(path)), _LOOKED_FOR):
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
    counts = Counter[str]()
    with uncollected():
        heads, told = _streamed(store, (path, supplier), known, day)
        held = tuple(some for few in told if (some := _held(few, counts)).rows)
    # What was said not to be in the list stays said.
    said = {name: head for name, head in known.items() if not head} | heads
    return Preview(supplier, path, said, held, counts, day, _stamp(path))


def take_in(store: Store, preview: Preview) -> int:
    """Take every new and changed price in, in one transaction; gives the number of the import, by which it is undone."""
    told: Iterable[Told] = preview.held
    if any(preview.count(fate) > MOST_HELD for fate in _CHANGES):
        if _stamp(preview.path) != preview.stamp:
            raise CannotReadListError(preview.path, "it was changed since it was looked at; open it again")
        told = _streamed(store, (preview.path, preview.supplier), preview.columns, preview.day)[1]

    def work(connection: Connection) -> int:
        from sqlalchemy import insert

        from tundish.store.tables import imports

        row = {"supplier": preview.supplier, "file": preview.file, "made": now(), "undone": ""}
        made = connection.execute(insert(imports).values(row))
        import_id = int(made.inserted_primary_key[0]) if made.inserted_primary_key else 0
        put(connection, import_id, (preview.supplier, preview.day), told)
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


def _streamed(store: Store, of: tuple[Path, str], heads: Mapping[str, str], day: str) -> tuple[dict[str, str], Iterator[Told]]:
    """The heads of a supplier's list, and its fates as they are read; what is known is looked up beside the reading of its beginning."""
    path, supplier = of
    with ThreadPoolExecutor(1) as beside:
        knowing = beside.submit(store.work, lambda connection: _known(connection, supplier))
        places, found, rest = _heads(path, heads)
        offers, twice, items = knowing.result()
    return found, fates_of(rest, places, Known(offers, twice, items, found, {}, day))


def _held(few: Told, counts: Counter[str]) -> Told:
    """Of a few fates those that are held: of each as many as there is room for; they are counted."""
    said = {fate: few.fates.count(fate) for fate in set(few.fates)}
    before = {fate: count(counts[fate]) for fate in said}
    counts.update(said)
    if all(counts[fate] <= _room(fate) for fate in said):
        return few
    return few.only([next(before[fate]) < _room(fate) for fate in few.fates])


def _room(fate: str) -> int:
    return MOST_HELD if fate in _CHANGES else SHOWN


def _stamp(path: Path) -> tuple[int, int]:
    stat = path.stat()
    return stat.st_size, stat.st_mtime_ns


def _known(connection: Connection, supplier: str) -> tuple[dict[str, tuple[Any, ...]], set[str], frozenset[str]]:
    """The offers of a supplier by their codes, codes that stand for several, and the codes of the trader's own items."""
    from sqlalchemy import select

    from tundish.store.tables import items, offers

    c = offers.c
    rows = fetched(connection, select(c.code, c.id, c.length, c.pack, c.price, c.least).where(c.supplier == supplier))
    held = {row[0]: row for row in rows}
    twice = {code for code, times in Counter([row[0] for row in rows]).items() if times > 1} if len(held) < len(rows) else set()
    return held, twice, frozenset(connection.execute(select(items.c.code)).scalars())


def _heads(path: Path, known: Mapping[str, str]) -> tuple[dict[str, int], dict[str, str], Iterator[Block]]:
    """Where the columns are and their heads, from the first row that names code and price, and what comes after it.

    Rows above it, titles and merged heads, are passed over.
    """
    read: list[str] = []
    blocks = blocks_of(path)
    for words, block, place in islice(_rows(blocks), _LOOKED_FOR):
        places = _places(words, known)
        if {"code", "price"} <= places.keys():
            return places, {name: words[at] for name, at in places.items()}, chain([block.after(place)], blocks)
        read += [cell for cell in words if cell][:8]
    named = ", ".join(f'"{word[:30]}"' for word in read[:12]) or "nothing"
    raise CannotReadListError(path, f"no row names a column for the code and one for the price; say which they are. It begins with {named}")


def _rows(blocks: Iterator[Block]) -> Iterator[tuple[tuple[str, ...], Block, int]]:
    """The rows that say anything, as words, each with its block and its place in it."""
    for block in blocks:
        for place in range(block.count):
            words = block.row(place)
            if any(words):
                yield words, block, place


def _places(heads: tuple[str, ...], known: Mapping[str, str]) -> dict[str, int]:
    """Where a row names each thing that a list may say, by the heads that are `known` of this supplier or of most."""
    lowered = [head.lower() for head in heads]
    places = {}
    for name, words in COLUMNS.items():
        if known.get(name, name) == "":
            continue  # the list does not say it
        wanted = (known[name].lower(),) if known.get(name) else words
        place = next((lowered.index(word) for word in wanted if word in lowered), None)
        if place is not None:
            places[name] = place
    return places


def _setting(supplier: str) -> str:
    return f"price columns {supplier}"
