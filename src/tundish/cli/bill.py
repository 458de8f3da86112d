"""`tundish bill FILE`: what a bill that came as UBL says, and everything of it that does not hold or does not agree."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from tundish.cli.job_named import open_store
from tundish.store.bill_beside import bill_beside
from tundish.store.bill_file import read_bill_file


def declare(commands: Any) -> None:
    """The words of the command."""
    made: argparse.ArgumentParser = commands.add_parser("bill", help="hold a bill that came as UBL against itself and your orders")
    made.add_argument("file", type=Path, help="a UBL 2.1 invoice or credit note, a supplier's or your own")
    made.set_defaults(run=run)


def run(asked: argparse.Namespace) -> int:
    """Say what it is and all there is to look at; 1 where there is something."""
    store = open_store()
    try:
        beside = bill_beside(store, read_bill_file(asked.file))
    finally:
        store.close()
    print(beside.says)
    for each in beside.problems:
        print(f"  {each}")
    return 1 if beside.problems else 0
