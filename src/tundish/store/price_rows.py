"""Prices put among the offers, and back, with what was before: tens of thousands of rows at a time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from itertools import islice
from json.encoder import encode_basestring_ascii
from typing import TYPE_CHECKING, Any, Final, NamedTuple

if TYPE_CHECKING:
    from sqlalchemy import Connection, Insert, Table, Update

_BATCH: Final = 10_000


class Terms(NamedTuple):
    """What a price list says of an offer; a tuple, as all that is made once for every row, for there are many."""

    price: Decimal
    pack: float
    least: int
    valid_from: str


class Fate(NamedTuple):
    """What becomes of one row: new, changed, unchanged, not used or refused."""

    row: int
    code: str
    fate: str
    said: str = ""
    item: str = ""
    offer_id: int = 0
    after: Terms | None = None
    before: Terms | None = None

    @property
    def why(self) -> str:
        """Why it is so, in words."""
        if self.before is None or self.after is None:
            return f"for {self.item}" if self.item else self.said
        old, price = self.before.price, self.after.price
        by = (price - old) / old * 100 if old else Decimal(0)
        return f"£{old} to £{price}, {'+' if by >= 0 else '−'}{abs(by):.1f} %"


def put(connection: Connection, import_id: int, supplier: str, wanted: Iterator[Fate]) -> None:
    """Change and add prices of a supplier, and keep what was before."""
    from sqlalchemy import func, insert, literal, select

    from tundish.store.tables import offers, price_changes

    last = int(connection.execute(select(func.max(offers.c.id))).scalar() or 0)
    staged = _staged()
    staged.create(connection)
    while batch := list(islice(wanted, _BATCH)):
        changed, new, kept = [], [], []
        for _, code, _, _, item, there, after, before in batch:
            if after is None:
                continue
            price, pack, least, day = after
            if before:
                changed.append((pack, str(price), day, least, there))
            else:
                last += 1
                new.append((last, item, code, pack, str(price), day, least))
            kept.append((import_id, there or last, _json(code, before), _json(code, after)))
        _many(connection, *_change(), changed)
        _many(connection, insert(staged), tuple(staged.c.keys()), new)
        _many(connection, insert(price_changes), ("import", "offer", "before", "after"), kept)
    # In one statement: the index of words takes four times as long where they come one by one.
    rest = {"supplier": literal(supplier), "length": literal(0.0), "width": literal(0.0)}
    connection.execute(insert(offers).from_select([*staged.c.keys(), *rest], select(*staged.c, *rest.values())))
    staged.drop(connection)


def put_back(connection: Connection, changes: Sequence[tuple[int, Mapping[str, Any] | None]]) -> None:
    """Give offers, by their ids, the terms they had; one that had none goes."""
    from sqlalchemy import delete

    from tundish.store.tables import offers

    _many(connection, *_change(), [(was["pack"], was["price"], was["valid_from"], was["least"], at) for at, was in changes if was])
    gone = iter([at for at, was in changes if not was])
    while batch := list(islice(gone, _BATCH)):
        connection.execute(delete(offers).where(offers.c.id.in_(batch)))


def _change() -> tuple[Update, tuple[str, ...]]:
    """The change of one offer's terms, and what is given to it in order."""
    from sqlalchemy import bindparam, update

    from tundish.store.tables import offers

    names = ("pack", "price", "valid_from", "least")
    change = update(offers).where(offers.c.id == bindparam("at")).values({name: bindparam(f"new_{name}") for name in names})
    return change, (*(f"new_{name}" for name in names), "at")


def _staged() -> Table:
    """Where new offers wait, to be put among the others in one go."""
    from sqlalchemy import Column, MetaData, Table

    from tundish.store.tables import offers

    names = ("id", "item", "code", "pack", "price", "valid_from", "least")
    return Table("new_offers", MetaData(), *(Column(name, offers.c[name].type) for name in names), prefixes=["TEMPORARY"])


def _many(connection: Connection, statement: Insert | Update, names: tuple[str, ...], rows: Sequence[tuple[Any, ...]]) -> None:
    """Run a statement for every row as the driver takes it; `names` as they come in the statement."""
    if rows:
        made = statement.compile(dialect=connection.dialect, column_keys=names)
        given = rows if connection.dialect.positional else [dict(zip(names, row, strict=True)) for row in rows]
        connection.exec_driver_sql(str(made), given)


def _json(code: str, terms: Terms | None) -> str:
    """What is kept of an offer's terms, as JSON; written out, for there are many."""
    if terms is None:
        return "null"
    price, pack, least, day = terms
    quoted = encode_basestring_ascii
    return f'{{"price": "{price}", "pack": {pack}, "least": {least}, "valid_from": {quoted(day)}, "code": {quoted(code)}}}'
