"""Prices put among the offers, and back, with what was before: a list of any length, in the transaction it is called in."""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from itertools import repeat
from typing import TYPE_CHECKING, Any, Final

from tundish.store.offer_search import indexed_at_the_end

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement, Connection, Insert, Select, Table

    from tundish.store.price_fates import Told

_BATCH: Final = 10_000
_TERMS: Final = ("pack", "price", "valid_from", "least")
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
    said: dict[str, Any] = {name: bindparam(name) for name in ("item", "supplier", "code", *_TERMS)}
    add = insert(offers).values(said | {name: literal_column("0.0") for name in ("length", "width")})
    changed, new = _Rows(connection, insert(given)), _Rows(connection, add)
    given.create(connection)
    with indexed_at_the_end(connection) as last:
        for few in wanted:
            if "changed" in few.fates:
                old = few.of("changed")
                changed.put(zip([each[1] for each in old.olds if each], old.packs, old.prices, repeat(day), old.leasts, strict=False))
            if "new" in few.fates:
                made = few.of("new")
                new.put(zip(made.items, repeat(supplier), made.codes, made.packs, made.prices, repeat(day), made.leasts, strict=False))
        changed.end()
        new.end()
        added = select(literal(import_id), o.id, o.code, o.price).where(o.id > last).order_by(o.id)
        connection.execute(insert(price_changes).from_select(_CHANGE, added))
    _change(connection, import_id, given)
    given.drop(connection)


def _change(connection: Connection, import_id: int, given: Table) -> None:
    """Keep the terms that offers have, then give them those that are given."""
    from sqlalchemy import insert, literal, select, update

    from tundish.store.tables import offers, price_changes

    o, g = offers.c, given.c
    was = select(literal(import_id), o.id, o.code, g.price, *(o[name] for name in _TERMS)).join(given, o.id == g.offer).order_by(g.offer)
    connection.execute(insert(price_changes).from_select((*_CHANGE, *(f"was_{name}" for name in _TERMS)), was))
    connection.execute(update(offers).where(o.id == g.offer).values({name: g[name] for name in _TERMS}))


def _given() -> Table:
    """A table for the new terms of offers, for as long as a list is taken in: the database then changes them all at once."""
    from sqlalchemy import Column, Float, Integer, MetaData, Table, Text

    terms = (Column("pack", Float), Column("price", Text), Column("valid_from", Text), Column("least", Integer))
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
    """A statement that is run for every row as the driver takes it, some thousands at a time; values come in the order of the statement."""

    def __init__(self, connection: Connection, statement: Insert) -> None:
        self._connection = connection
        self._made = statement.inline().compile(dialect=connection.dialect)
        self._waiting: list[tuple[Any, ...]] = []

    def put(self, rows: Iterable[tuple[Any, ...]]) -> None:
        self._waiting += rows
        if len(self._waiting) >= _BATCH:
            self.end()

    def end(self) -> None:
        """Run it for those that wait."""
        if self._waiting:
            by_name = not self._connection.dialect.positional
            given = [dict(zip(self._made.params, row, strict=True)) for row in self._waiting] if by_name else self._waiting
            self._connection.exec_driver_sql(str(self._made), given)
            self._waiting = []
