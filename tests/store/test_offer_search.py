"""The index of words over offers says what the offers say, whatever was done to them; nothing is left in it of what is gone."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Final

import pytest

from tests.store.earlier import take_back
from tests.store.lists import csv_list
from tundish.store.catalogue import ItemRows, keep_item, remove_item, replace_all, rows_of, sheets_of, undo_replace
from tundish.store.keep import Store
from tundish.store.offer_search import MAKE, TAKE_AWAY, find_offers
from tundish.store.price_list import look_at, take_in, undo

BEFORE: Final = """
DROP TRIGGER offer_words_in; DROP TRIGGER offer_words_out; DROP TRIGGER offer_words_over; DROP TRIGGER offer_words_item_in;
DROP TRIGGER offer_words_item_out; DROP TRIGGER offer_words_named; DROP TABLE offer_words;
CREATE VIRTUAL TABLE offer_words USING fts5(code, name, supplier, prefix = '1 2 3 4', detail = none, columnsize = 0);
INSERT INTO offer_words(rowid, code, name, supplier) SELECT id, code, item, supplier FROM offers;
CREATE TRIGGER offer_words_in AFTER INSERT ON offers BEGIN
    INSERT INTO offer_words(rowid, code, name, supplier) VALUES (new.id, new.code, new.item, new.supplier); END;
CREATE TRIGGER offer_words_out AFTER DELETE ON offers BEGIN DELETE FROM offer_words WHERE rowid = old.id; END;
"""
"""What the index was until schema 9."""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "offers.db"


@pytest.fixture
def store(path: Path) -> Store:
    return Store(f"sqlite:///{path}")


def words_in(path: Path, *, afresh: bool) -> list[tuple[str, int]]:
    """Every word of the index with the offer it is said of; of the index as it is, or made afresh from the offers."""
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("BEGIN")
        for statement in (*TAKE_AWAY, *MAKE) if afresh else ():
            connection.execute(statement)
        connection.execute("CREATE VIRTUAL TABLE temp.said USING fts5vocab('main', 'offer_words', 'instance')")
        found = connection.execute("SELECT term, doc FROM temp.said ORDER BY term, doc").fetchall()
        connection.execute("ROLLBACK")
    return found


def holds(path: Path) -> bool:
    return words_in(path, afresh=False) == words_in(path, afresh=True)


def test_the_index_holds_through_all_that_is_done_to_offers_and_items(store: Store, path: Path) -> None:
    assert holds(path)
    pad = rows_of(store.book(), "sound-pad")
    assert keep_item(store, replace(pad, item={**pad.item, "name": "Thin Émile pad"}), "sound-pad") == ()
    assert holds(path)
    assert [each.item for each in find_offers(store, "emile")][:1] == ["sound-pad"]
    offers = tuple({**each, "item": "pad-thick", "code": "T1"} for each in pad.offers[:1])
    like = ItemRows({**pad.item, "code": "pad-thick"}, pad.ends, (), offers)
    assert keep_item(store, like) == ()
    assert holds(path)
    lists = path.parent
    rows = (("code", "price", "item"), ("OB2024", "13.00", ""), *((f"N{place}", "1.00", "sound-pad") for place in range(30)))
    take_in(store, look_at(store, csv_list(lists / "l.csv", rows), "oddmoor"))
    assert holds(path)
    assert remove_item(store, "pad-thick") == ""
    assert holds(path)
    assert undo(store, "oddmoor") == 31
    assert holds(path)
    assert replace_all(store, sheets_of(store)) == ()
    assert holds(path)
    assert undo_replace(store) == ""
    assert holds(path)
    store.close()


def test_an_offer_is_known_by_the_code_of_an_item_that_is_not_there(store: Store, path: Path) -> None:
    store.close()
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("DELETE FROM items WHERE code = 'sound-pad'")
    assert holds(path)
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("INSERT INTO items VALUES ('sound-pad', 'pad', '{\"name\": \"Come again\"}')")
        connection.execute("UPDATE offers SET code = 'MOVED', item = 'strut-41x21' WHERE code = 'OB2018'")
    assert holds(path)


def test_the_index_of_an_earlier_program_is_made_anew(store: Store, path: Path) -> None:
    store.close()
    take_back("0009", f"sqlite:///{path}")
    with closing(sqlite3.connect(path)) as connection:
        connection.executescript(BEFORE)
    opened = Store(f"sqlite:///{path}")
    assert [each.code for each in find_offers(opened, "ob2018")] == ["OB2018"]
    opened.close()
    assert holds(path)
