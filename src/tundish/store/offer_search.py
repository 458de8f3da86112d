"""Finding offers as you type: every word, or its beginning, in code, item or supplier; the first few of however many there are.

SQLite keeps the index (FTS5) true by triggers; another database is asked by the words themselves, which is slower.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from decimal import Decimal
from typing import TYPE_CHECKING, Final, NamedTuple

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from tundish.store.keep import Store

FIRST: Final = 50
_IN: Final = """INSERT INTO offer_words(rowid, code, name, supplier)
    SELECT o.id, o.code, COALESCE(json_extract(i.body, '$.name'), o.item), o.supplier FROM offers o LEFT JOIN items i ON i.code = o.item"""
"""What is said of offers: one of an item that is not there is known by the item's code."""
_MANY_IN: Final = """WITH named AS MATERIALIZED (SELECT code, json_extract(body, '$.name') AS name FROM items)
    INSERT INTO offer_words(rowid, code, name, supplier)
    SELECT o.id, o.code, COALESCE(i.name, o.item), o.supplier FROM offers o LEFT JOIN named i ON i.code = o.item WHERE o.id > ?"""
"""The same of all offers after one; the names of items are read once."""
_OUT: Final = """INSERT INTO offer_words(offer_words, rowid, code, name, supplier)
    SELECT 'delete', o.id, o.code, COALESCE(json_extract(old.body, '$.name'), o.item), o.supplier FROM offers o WHERE o.item = old.code"""
# The index keeps no words: what goes out of it is said as it was said when it went in.
_OUT_OF_OLD: Final = """INSERT INTO offer_words(offer_words, rowid, code, name, supplier) VALUES ('delete', old.id, old.code,
    COALESCE((SELECT json_extract(body, '$.name') FROM items WHERE code = old.item), old.item), old.supplier)"""
_OUT_UNNAMED: Final = """INSERT INTO offer_words(offer_words, rowid, code, name, supplier)
    SELECT 'delete', id, code, item, supplier FROM offers WHERE item = new.code"""
_AS_THEY_COME: Final = f"CREATE TRIGGER offer_words_in AFTER INSERT ON offers BEGIN {_IN} WHERE o.id = new.id; END"
_MERGED: Final = "INSERT INTO offer_words(offer_words, rank) VALUES ('automerge', ?)"
"""How many parts of the index make SQLite put them together at every change; 0 leaves them to later changes."""
_NO_MORE: Final = "DROP TRIGGER offer_words_in"
MAKE: Final = (
    # Which offer has a word is all that is asked: not where in it, nor how long it is, nor what it was.
    """CREATE VIRTUAL TABLE offer_words USING fts5(code, name, supplier, content = '', prefix = '1 2 3 4', detail = none, columnsize = 0,
    tokenize = 'unicode61 remove_diacritics 2')""",
    _IN,
    _AS_THEY_COME,
    f"CREATE TRIGGER offer_words_out AFTER DELETE ON offers BEGIN {_OUT_OF_OLD}; END",
    f"CREATE TRIGGER offer_words_over AFTER UPDATE OF item, code, supplier ON offers BEGIN {_OUT_OF_OLD}; {_IN} WHERE o.id = new.id; END",
    f"CREATE TRIGGER offer_words_item_in AFTER INSERT ON items BEGIN {_OUT_UNNAMED}; {_IN} WHERE o.item = new.code; END",
    f"CREATE TRIGGER offer_words_item_out AFTER DELETE ON items BEGIN {_OUT}; {_IN} WHERE o.item = old.code; END",
    f"""CREATE TRIGGER offer_words_named AFTER UPDATE OF body ON items
    WHEN json_extract(old.body, '$.name') IS NOT json_extract(new.body, '$.name') BEGIN {_OUT}; {_IN} WHERE o.item = new.code; END""",
)
TAKE_AWAY: Final = (
    *(f"DROP TRIGGER IF EXISTS offer_words_{of}" for of in ("in", "out", "over", "item_in", "item_out", "named")),
    "DROP TABLE offer_words",
)
_WORD: Final = re.compile(r"[^\W_]+")
QUERY: Final = """SELECT offers.item, offers.supplier, offers.code, offers.pack, offers.price
FROM offer_words JOIN offers ON offers.id = offer_words.rowid WHERE offer_words MATCH ? LIMIT ?"""


class FoundOffer(NamedTuple):
    """An offer that was found; made as it is read, for there are many and they are read while somebody types."""

    item: str
    supplier: str
    code: str
    pack: float
    price_words: str

    @property
    def price(self) -> Decimal:
        """What a pack costs, without VAT."""
        return Decimal(self.price_words)


@contextmanager
def indexed_at_the_end(connection: Connection) -> Iterator[int]:
    """Give the last id of the offers; those put in meanwhile are indexed together: one by one takes four times as long."""
    last = int(connection.exec_driver_sql("SELECT MAX(id) FROM offers").scalar() or 0)
    ours = connection.dialect.name == "sqlite"
    if ours:
        connection.exec_driver_sql(_NO_MORE)
    yield last
    if ours:
        connection.exec_driver_sql(_MERGED, (0,))
        connection.exec_driver_sql(_MANY_IN, (last,))
        connection.exec_driver_sql(_MERGED, (4,))
        connection.exec_driver_sql(_AS_THEY_COME)


def find_offers(store: Store, typed: str, most: int = FIRST) -> tuple[FoundOffer, ...]:
    """The first offers in which every word typed begins a word; none where nothing is typed."""
    words = _WORD.findall(typed)
    if not words:
        return ()

    rows = store.read_raw(QUERY, (match_words(words), most))
    return store.work(lambda connection: _plainly(connection, words, most)) if rows is None else tuple(map(FoundOffer._make, rows))


def match_words(words: list[str]) -> str:
    """What the index is asked for: each word as it is, quoted, as a beginning."""
    return " ".join(f'"{word}"*' for word in words)


def _plainly(connection: Connection, words: list[str], most: int) -> tuple[FoundOffer, ...]:
    from sqlalchemy import select

    from tundish.store.tables import offers

    c = offers.c
    query = select(c.item, c.supplier, c.code, c.pack, c.price)
    for word in words:
        query = query.where(c.code.icontains(word) | c.item.icontains(word) | c.supplier.icontains(word))
    return tuple(FoundOffer(row.item, row.supplier, row.code, row.pack, row.price) for row in connection.execute(query.limit(most)))
