"""How long price lists take against the least that any program must do: read the file, and put rows into SQLite."""

from __future__ import annotations

import csv
import sqlite3
import sys
import tracemalloc
from collections.abc import Iterator
from itertools import count
from pathlib import Path
from statistics import median
from time import perf_counter

import pytest
import python_calamine
from openpyxl import Workbook

from tundish.store.keep import Store
from tundish.store.offer_search import find_offers
from tundish.store.price_list import look_at, take_in, undo

LIST_ROWS = 50_000
LONG_ROWS = 1_000_000
OFFERS = 1_000_000
MOST_MB = 80
SEARCHES = ("p", "pi", "pip", "pipe", "pipe 15", "pipe 15 oddm", "co", "cop elb", "zz9", "x12345", "elbow 22", "clip")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("lists")


@pytest.fixture(scope="module")
def workbooks(folder: Path) -> tuple[Path, Path]:
    """A list of 50,000 rows, and the next one of the same supplier: every price a tenth higher."""
    return workbook(folder / "first.xlsx", 1.0), workbook(folder / "next.xlsx", 1.1)


def workbook(path: Path, times: float) -> Path:
    book = Workbook(write_only=True)
    sheet = book.create_sheet()
    sheet.append(["Code", "Description", "Price", "Pack", "Item"])
    for place in range(LIST_ROWS):
        sheet.append([f"L{place:06}", f"Thing number {place}", round((1 + place / 100) * times, 2), 4, "sound-pad"])
    book.save(path)
    return path


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    made = Store(f"sqlite:///{tmp_path}/stock.db")
    yield made
    made.close()


def least(workbook: Path, folder: Path, turn: int) -> float:
    """Seconds to read the workbook and to insert its rows raw, into a table as wide as an offer."""
    begun = perf_counter()
    sheet = python_calamine.CalamineWorkbook.from_path(workbook).get_sheet_by_index(0)
    rows = [("sound-pad", "oddmoor", str(row[0]), row[3], str(row[2]), "2026-11-25", 0, 0) for row in sheet.iter_rows()]
    with sqlite3.connect(folder / f"raw{turn}.db") as connection:
        connection.execute("CREATE TABLE raw (id INTEGER PRIMARY KEY, item, supplier, code, pack, price, valid_from, length, width)")
        marks = ",".join("?" * 8)
        connection.executemany(f"INSERT INTO raw (item, supplier, code, pack, price, valid_from, length, width) VALUES ({marks})", rows)  # noqa: S608
    return perf_counter() - begun


def test_a_list_of_fifty_thousand_rows(workbooks: tuple[Path, Path], folder: Path, store: Store) -> None:
    """Target: looked at and taken in within twice the least, every row a new price or a changed one."""
    raw = median(least(workbooks[0], folder, turn) for turn in range(3))
    told = []
    for path, fate in zip(workbooks, ("new", "changed"), strict=True):
        begun = perf_counter()
        preview = look_at(store, path, "oddmoor")
        looked = perf_counter() - begun
        take_in(store, preview)
        whole = perf_counter() - begun
        assert preview.count(fate) == LIST_ROWS
        told.append(f"{fate}: {whole:.2f} s (look {looked:.2f}), {whole / raw:.2f} of the least")
    begun = perf_counter()
    assert undo(store, "oddmoor") == LIST_ROWS
    told.append(f"undone in {perf_counter() - begun:.2f} s")
    sys.stderr.write(f"\n50,000 rows: least {raw:.2f} s; {'; '.join(told)}\n")


def test_a_million_rows_of_text_are_looked_at_in_bounded_memory(folder: Path, store: Store) -> None:
    """Target: no more memory than a short list takes, whatever the length."""
    path = folder / "long.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([["code", "price", "pack"], *((f"M{place}", "4.20", 1) for place in range(LONG_ROWS))])
    tracemalloc.start()
    preview = look_at(store, path, "oddmoor")
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    begun = perf_counter()
    look_at(store, path, "oddmoor")
    sys.stderr.write(f"\n1,000,000 rows: {perf_counter() - begun:.1f} s, {peak / 1e6:.1f} MB at most\n")
    assert preview.count("not used") == LONG_ROWS
    assert peak < MOST_MB * 1e6


@pytest.fixture(scope="module")
def full(folder: Path) -> Iterator[Store]:
    """A store with a million offers."""
    made = Store(f"sqlite:///{folder}/full.db")
    codes = sorted(made.book().items)
    numbers = count()
    rows = [(codes[place % len(codes)], "oddmoor" if place % 3 else "quernby", f"X{next(numbers)}") for place in range(OFFERS)]
    made.close()
    with sqlite3.connect(folder / "full.db") as connection:
        connection.executemany(
            "INSERT INTO offers (item, supplier, code, pack, price, valid_from, length, width) "
            "VALUES (?, ?, ?, 1, '4.20', '2026-01-01', 0, 0)",
            rows,
        )
    opened = Store(f"sqlite:///{folder}/full.db")
    yield opened
    opened.close()


def test_a_million_offers_are_searched_as_you_type(full: Store, folder: Path) -> None:
    """Target: the first fifty within twice the raw query of the index."""
    connection = sqlite3.connect(folder / "full.db")
    told = []
    for typed in SEARCHES:
        match = " ".join(f'"{word}"*' for word in typed.split())
        raw, ours = [], []
        for _ in range(15):
            begun = perf_counter()
            rows = connection.execute(
                "SELECT o.item, o.supplier, o.code, o.pack, o.price FROM offer_words JOIN offers o ON o.id = offer_words.rowid "
                "WHERE offer_words MATCH ? LIMIT 50",
                (match,),
            ).fetchall()
            raw.append(perf_counter() - begun)
            begun = perf_counter()
            found = find_offers(full, typed)
            ours.append(perf_counter() - begun)
        assert len(found) == len(rows)
        told.append((typed, median(raw) * 1e3, median(ours) * 1e3))
    connection.close()
    sys.stderr.write(
        "\n" + "\n".join(f"{typed!r}: raw {raw:.2f} ms, ours {ours:.2f} ms, {ours / raw:.2f}" for typed, raw, ours in told) + "\n"
    )
