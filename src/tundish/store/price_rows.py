"""Prices put among the offers, and back, with what was before: a list of any length, in the transaction it is called in."""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from itertools import chain
from typing import TYPE_CHECKING, Any, Final

from tundish.store.offer_search import indexed_at_the_end

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement, Connection, Insert, Select, Table

    from tundish.store.price_fates import Told

_BATCH: Final = 10_000
_TOGETHER: Final = 100
"""Rows that one statement puts in: a statement for each takes half as long again."""
_TERMS: Final = ("pack", "price", "valid_from", "least")
_GIVEN: Final = ("pack", "price", "least")
_CHANGE: Final = ("import", "offer", "code", "price")


@contextmanager
def uncollected() -> Iterator[None]:
    """Rows by the ten thousand hold nothing that could be collected, and a fifth of the time goes on looking: no looking meanwhile."""
    looking = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if looking:
            gc.enable()


def fetched(connection: Connection, wanted: Select[Any]) -> list[tuple[Any, ...]]:
    """The rows of a query of plain columns as the driver gives them: there are many, and nothing is to be made of them."""
    return list(connection.execute(wanted).cursor.fetchall())


def put(connection: Connection, import_id: int, of: tuple[str, str], wanted: Iterable[Told]) -> None:
    """Change and add prices of a supplier, from a day, and keep what was before."""
    from sqlalchemy import bindparam, insert, literal, literal_column, select

    from tundish.store.tables import offers, price_changes

    supplier, day = of
    o, given = offers.c, _given()
    said: dict[str, Any] = {name: bindparam(name) for name in ("item", "code", "pack", "price", "least")}
    alike = {"supplier": _quoted(connection, supplier), "valid_from": _quoted(connection, day), "length": "0.0", "width": "0.0"}
    add = insert(offers).values(said | {name: literal_column(words) for name, words in alike.items()})
    changed, new = _Rows(connection, insert(given)), _Rows(connection, add)
    given.create(connection)
    with indexed_at_the_end(connection) as last:
        for few in wanted:
            fates = set(few.fates)
            if "changed" in fates:
                old = few.of("changed")
                changed.put([each[1] for each in old.olds if each], old.packs, old.prices, old.leasts)
            if "new" in fates:
                made = few.of("new")
                new.put(made.items, made.codes, made.packs, made.prices, made.leasts)
        changed.end()
        new.end()
        added = select(literal(import_id), o.id, o.code, o.price).where(o.id > last).order_by(o.id)
        connection.execute(insert(price_changes).from_select(_CHANGE, added))
    if changed.any:
        _change(connection, import_id, given, day)
    given.drop(connection)


def _quoted(connection: Connection, words: str) -> str:
    """Words that are the same in every row, as they stand in a statement: only what differs is given row by row."""
    from sqlalchemy import literal

    return str(literal(words).compile(dialect=connection.dialect, compile_kwargs={"literal_binds": True}))


def _change(connection: Connection, import_id: int, given: Table, day: str) -> None:
    """Keep the terms that offers have, then give them those that are given, from a day."""
    from sqlalchemy import insert, literal, select, update

    from tundish.store.tables import offers, price_changes

    o, g = offers.c, given.c
    was = select(literal(import_id), o.id, o.code, g.price, *(o[name] for name in _TERMS)).join(given, o.id == g.offer).order_by(g.offer)
    connection.execute(insert(price_changes).from_select((*_CHANGE, *(f"was_{name}" for name in _TERMS)), was))
    connection.execute(update(offers).where(o.id == g.offer).values({name: g[name] for name in _GIVEN} | {"valid_from": day}))


def _given() -> Table:
    """A table for the new terms of offers, for as long as a list is taken in: the database then changes them all at once."""
    from sqlalchemy import Column, Float, Integer, MetaData, Table, Text

    terms = (Column("pack", Float), Column("price", Text), Column("least", Integer))
    return Table("given_terms", MetaData(), Column("offer", Integer, primary_key=True), *terms, prefixes=["TEMPORARY"])


def put_back(connection: Connection, import_id: int) -> int:
    """Give the offers of an import the terms they had; those that had none go. Gives how many there are."""
    from sqlalchemy import delete, select, update

    from tundish.store.tables import offers, price_changes

    p, o = price_changes.c, offers.c
    mine = p["import"] == import_id
    before = {name: p[f"was_{name}"] for name in _TERMS}
    back = connection.execute(update(offers).where(o.id == p.offer, mine, p.was_price.is_not(None)).values(before))
    gone = connection.execute(delete(offers).where(o.id.in_(select(p.offer).where(mine, p.was_price.is_(None)))))
    return back.rowcount + gone.rowcount


def changed_since(connection: Connection, import_id: int, supplier: str) -> str:
    """The code of an offer of an import that is not as the import left it, or nothing."""
    from sqlalchemy import exists, select

    from tundish.store.tables import offers, price_changes

    p, o = price_changes.c, offers.c
    stands: ColumnElement[bool] = exists().where(o.id == p.offer, o.code == p.code, o.price == p.price, o.supplier == supplier)
    return str(connection.execute(select(p.code).where(p["import"] == import_id, ~stands).limit(1)).scalar() or "")


class _Rows:
    """An insert of rows as the driver takes them, some thousands at a time and many by one statement; values come in its order."""

    def __init__(self, connection: Connection, statement: Insert) -> None:
        self._connection = connection
        made = statement.inline().compile(dialect=connection.dialect)
        self._one, self._names = str(made), tuple(made.params)
        self._waiting: list[Any] = []
        self.any = False

    def put(self, *columns: Iterable[Any]) -> None:
        self._waiting += chain.from_iterable(zip(*columns, strict=True))
        if len(self._waiting) >= _BATCH * len(self._names):
            self.end()

    def end(self) -> None:
        """Run it for those that wait."""
        values, self._waiting = self._waiting, []
        self.any |= bool(values)
        if self._connection.dialect.positional:
            before, _, row = self._one.partition(" VALUES ")
            size = len(self._names) * _TOGETHER
            whole = len(values) - len(values) % size
            self._run(f"{before} VALUES {', '.join([row] * _TOGETHER)}", _parted(values[:whole], size))
            self._run(self._one, _parted(values[whole:], len(self._names)))
        else:
            self._run(self._one, [dict(zip(self._names, row, strict=True)) for row in _parted(values, len(self._names))])

    def _run(self, words: str, given: list[Any]) -> None:
        if given:
            self._connection.exec_driver_sql(words, given)


def _parted(values: list[Any], size: int) -> list[tuple[Any, ...]]:
    return [tuple(values[place : place + size]) for place in range(0, len(values), size)]
