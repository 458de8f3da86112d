"""`tundish cut FILE [--seconds S] [--json]`: a cut list of its own, outside any job."""

from __future__ import annotations

import argparse
import json
import time
from pathlib import Path
from typing import Any

from tundish.cutting.bars import KEEP
from tundish.cutting.own_list import planned
from tundish.cutting.question import answer
from tundish.cutting.until import never
from tundish.documents.cut_told import told
from tundish.store.cut_file import read_cut_file


def declare(commands: Any) -> None:
    """The words of the command."""
    made: argparse.ArgumentParser = commands.add_parser("cut", help="plan how to cut pieces from bars or sheets")
    made.add_argument("file", type=Path, help="a JSON file, or a CSV of pieces and stock")
    made.add_argument("--seconds", type=_seconds, help="the best plan found in so many seconds; without it, until nothing better is found")
    made.add_argument("--json", action="store_true", help="as one JSON object")
    made.add_argument("--kerf", type=float, default=3.0, help="width of the saw's cut, mm, for a CSV (3)")
    made.add_argument("--trim", type=float, default=0.0, help="taken off each edge of a sheet first, mm, for a CSV (0)")
    made.add_argument("--keep", type=float, default=KEEP, help=f"shortest offcut of a bar worth keeping, mm ({KEEP:g})")
    made.add_argument("--join", type=float, default=0.0, metavar="POUNDS", help="what a joint costs; without it nothing is joined")
    made.set_defaults(run=run)


def run(asked: argparse.Namespace) -> int:
    """Print the plan; 1 when pieces are left over."""
    stop = never if asked.seconds is None else After(asked.seconds)
    plan = planned(read_cut_file(asked.file, asked.kerf, asked.trim), asked.keep, stop)
    if asked.json:
        print(json.dumps(answer(plan)))
    else:
        print("\n".join(told(plan, asked.keep, round(asked.join * 100))))
    return 1 if plan.unplaced else 0


class After:
    """Yes once so many seconds have gone by."""

    def __init__(self, seconds: float) -> None:
        self._end = time.monotonic() + seconds

    def __call__(self) -> bool:
        """Whether they have gone by."""
        return self.left() <= 0

    def left(self) -> float:
        """Seconds that are left."""
        return self._end - time.monotonic()


def _seconds(words: str) -> float:
    value = float(words)
    if not 0 < value <= 3600:  # noqa: PLR2004 - an hour is more than anybody waits
        raise argparse.ArgumentTypeError("should be more than 0 and at most 3600")
    return value
