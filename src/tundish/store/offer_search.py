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
_WORDS: Final = """INSERT INTO offer_words(rowid, code, name, supplier)
    SELECT id, code, COALESCE((SELECT json_extract(body, '$.name') FROM items WHERE items.code = offers.item), item), supplier
    FROM offers"""
_WORDS_OF_NEW: Final = """INSERT INTO offer_words(rowid, code, name, supplier) VALUES (new.id, new.code,
    COALESCE((SELECT json_extract(body, '$.name') FROM items WHERE items.code = new.item), new.item), new.supplier)"""
_OUT_OF_OLD: Final = "DELETE FROM offer_words WHERE rowid = old.id"
_AS_THEY_COME: Final = f"CREATE TRIGGER offer_words_in AFTER INSERT ON offers BEGIN {_WORDS_OF_NEW}; END"
_NO_MORE: Final = "DROP TRIGGER offer_words_in"
MAKE: Final = (
    # Which offer has a word is all that is asked: not where in it, nor how long it is.
    """CREATE VIRTUAL TABLE offer_words USING fts5(code, name, supplier, prefix = '1 2 3 4', detail = none, columnsize = 0,
    tokenize = 'unicode61 remove_diacritics 2')""",
    _WORDS,
    _AS_THEY_COME,
    f"CREATE TRIGGER offer_words_out AFTER DELETE ON offers BEGIN {_OUT_OF_OLD}; END",
    f"CREATE TRIGGER offer_words_over AFTER UPDATE OF item, code, supplier ON offers BEGIN {_OUT_OF_OLD}; {_WORDS_OF_NEW}; END",
    """CREATE TRIGGER offer_words_named AFTER UPDATE OF body ON items BEGIN
    UPDATE offer_words SET name = json_extract(new.body, '$.name')
    WHERE rowid IN (SELECT id FROM offers WHERE item = new.code); END""",
)
TAKE_AWAY: Final = (
    _NO_MORE,
    "DROP TRIGGER offer_words_out",
    "DROP TRIGGER offer_words_over",
    "DROP TRIGGER offer_words_named",
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
        connection.exec_driver_sql(f"{_WORDS} WHERE id > ?", (last,))
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
