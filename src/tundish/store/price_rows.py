"""Prices put among the offers, and back, with what was before: a list of any length, in the transaction it is called in."""

from __future__ import annotations

import gc
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from decimal import Decimal
from itertools import islice
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from tundish.catalogue.sheets import money_words
from tundish.store.offer_search import indexed_at_the_end

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement, Connection, Insert, Select, Update

_BATCH: Final = 10_000
_TERMS: Final = ("pack", "price", "valid_from", "least")


class Fate(NamedTuple):
    """What becomes of one row: new, changed, unchanged, not used or refused; its terms, and what they were.

    A flat tuple with the prices as they are kept: there are many, and most are never looked at.
    """

    row: int
    code: str
    fate: str
    said: str = ""
    item: str = ""
    offer_id: int = 0
    pack: float = 1.0
    price_words: str = ""
    valid_from: str = ""
    least: int = 1
    was_pack: float = 1.0
    was_price_words: str = ""
    was_valid_from: str = ""
    was_least: int = 1

    @property
    def price(self) -> Decimal:
        """What a pack is to cost, without VAT."""
        return Decimal(self.price_words)

    @property
    def why(self) -> str:
        """Why it is so, in words."""
        if not self.was_price_words:
            return f"for {self.item}" if self.item else self.said
        old = Decimal(self.was_price_words)
        by = (self.price - old) / old * 100 if old else Decimal(0)
        return f"£{money_words(old)} to £{money_words(self.price)}, {'+' if by >= 0 else '−'}{abs(by):.1f} %"


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


def put(connection: Connection, import_id: int, supplier: str, wanted: Iterator[Fate]) -> None:
    """Change and add prices of a supplier, and keep what was before."""
    from sqlalchemy import insert, literal, select

    from tundish.store.tables import offers, price_changes

    o = offers.c
    what = ("import", "offer", "code", "price")
    with indexed_at_the_end(connection) as last:
        while batch := list(islice(wanted, _BATCH)):
            changed, kept, new = [], [], []
            for each in batch:
                _, code, _, _, item, offer_id, pack, price, day, least, *before = each
                if offer_id:
                    changed.append((pack, price, day, least, offer_id))
                    kept.append((import_id, offer_id, code, price, *before))
                else:
                    new.append((item, supplier, code, pack, price, day, 0.0, 0.0, least))
            _many(connection, *_change(), changed)
            _many(connection, insert(price_changes), (*what, *(f"was_{name}" for name in _TERMS)), kept)
            _many(connection, insert(offers), ("item", "supplier", "code", "pack", "price", "valid_from", "length", "width", "least"), new)
        added = select(literal(import_id), o.id, o.code, o.price).where(o.id > last).order_by(o.id)
        connection.execute(insert(price_changes).from_select(what, added))


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


def _change() -> tuple[Update, tuple[str, ...]]:
    """The change of one offer's terms, and what is given to it in order."""
    from sqlalchemy import bindparam, update

    from tundish.store.tables import offers

    change = update(offers).where(offers.c.id == bindparam("at")).values({name: bindparam(f"new_{name}") for name in _TERMS})
    return change, (*(f"new_{name}" for name in _TERMS), "at")


def _many(connection: Connection, statement: Insert | Update, names: tuple[str, ...], rows: Sequence[tuple[Any, ...]]) -> None:
    """Run a statement for every row as the driver takes it; `names` as they come in the statement."""
    if rows:
        made = statement.compile(dialect=connection.dialect, column_keys=names)
        given = list(rows) if connection.dialect.positional else [dict(zip(names, row, strict=True)) for row in rows]
        connection.exec_driver_sql(str(made), given)
