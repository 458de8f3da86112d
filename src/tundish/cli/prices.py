"""`tundish prices FILE --supplier KEY`: look at a supplier's price list, take it in, or undo the last one."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any, Final

from tundish.cli.job_named import open_store
from tundish.errors import TundishError
from tundish.store.price_fates import COLUMNS
from tundish.store.price_list import Preview, look_at, take_in, undo

SHOWN: Final = 200
FATES: Final = ("new", "changed", "refused")


class NoSuchSupplierError(TundishError):
    """The supplier named is none of the trader's."""


def declare(commands: Any) -> None:
    """The words of the command."""
    made: argparse.ArgumentParser = commands.add_parser("prices", help="look at a supplier's price list, take it in, or undo the last")
    made.add_argument("file", nargs="?", type=Path, help="CSV, XLSX or ODS")
    made.add_argument("--supplier", required=True, metavar="KEY", help="whose list it is")
    made.add_argument("--column", action="append", default=[], metavar="WHAT=HEAD", help=f"the head over {', '.join(COLUMNS)}; remembered")
    made.add_argument("--take", action="store_true", help="take it in, all of it or nothing; without this it is only looked at")
    made.add_argument("--undo", action="store_true", help="put back the prices of the list taken in last")
    made.set_defaults(run=run)


def run(asked: argparse.Namespace) -> int:
    """Say the fate of every row that changes something, and take the list in where that was asked for."""
    store = open_store()
    try:
        suppliers = store.book().suppliers
        if asked.supplier not in suppliers:
            raise NoSuchSupplierError(f"{asked.supplier} is no supplier of yours; there are: {', '.join(suppliers)}")
        if asked.undo:
            print(f"{undo(store, asked.supplier)} prices put back")
            return 0
        if asked.file is None:
            raise NoSuchSupplierError("name the file of the price list, or --undo")
        columns = dict(words.split("=", 1) for words in asked.column if "=" in words)
        preview = look_at(store, asked.file, asked.supplier, columns)
        _say(preview)
        if asked.take:
            print(f"Taken in as import {take_in(store, preview)}; --undo puts the old prices back")
        return 0
    finally:
        store.close()


def _say(preview: Preview) -> None:
    telling = [each for each in preview.fates if each.fate in FATES]
    for each in telling[:SHOWN]:
        print(f"row {each.row}: {each.code or '–'}: {each.fate}{f', {each.why}' if each.why else ''}")
    more = sum(preview.count(fate) for fate in FATES) - min(len(telling), SHOWN)
    if more > 0:
        print(f"and {more} more")
    print(", ".join(f"{count} {fate}" for fate, count in preview.counts.items()) or "no rows")
