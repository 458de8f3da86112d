"""`tundish cut FILE [--seconds S] [--json]`: a cut list of its own, outside any job."""

from __future__ import annotations

import argparse
import json
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from tundish import measure
from tundish.cli.cut_file import read_cut_file
from tundish.cutting.bars import KEEP, plan_bars
from tundish.cutting.joints import Joints, ways_out
from tundish.cutting.plan import BarPlan, Effort, SheetPlan
from tundish.cutting.question import Question, answer
from tundish.cutting.saw_order import saw_order
from tundish.cutting.sheets import plan_sheets
from tundish.cutting.until import Stop, never


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
        print("\n".join(_told(plan, asked.keep, round(asked.join * 100))))
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


def planned(asked: Question, keep: float = KEEP, stop: Stop = never) -> BarPlan | SheetPlan:
    """The best plan found until told to stop."""
    if asked.sheets:
        return plan_sheets(asked.pieces, asked.sheets, asked.kerf, asked.trim, Effort.PROOF, stop)
    return plan_bars(asked.pieces, asked.bars, asked.kerf, keep, Effort.PROOF, stop)


def _seconds(words: str) -> float:
    value = float(words)
    if not 0 < value <= 3600:  # noqa: PLR2004 - an hour is more than anybody waits
        raise argparse.ArgumentTypeError("should be more than 0 and at most 3600")
    return value


def _told(plan: BarPlan | SheetPlan, keep: float, join: int) -> Iterator[str]:
    show = measure.show_length
    if isinstance(plan, BarPlan):
        for number, cut in enumerate(plan.cuts, 1):
            pieces = ", ".join(f"{plan.pieces[one].mark} {show(plan.pieces[one].length)}" for one in cut.pieces)
            rest = f"{'keep' if cut.remainder >= keep else 'scrap'} {show(cut.remainder)}"
            yield f"{number}. {plan.stock[cut.bar].name}, {show(plan.stock[cut.bar].length)} mm: {pieces}; {rest}"
    else:
        for number, sheet in enumerate(plan.cuts, 1):
            size = plan.stock[sheet.sheet]
            yield f"{number}. {size.name}, {show(size.length)} × {show(size.width)} mm:"
            yield from (f"   {words}" for words in saw_order(plan, sheet))
    if plan.unplaced:
        left = ", ".join(f"{plan.pieces[one].mark} {show(plan.pieces[one].length)}" for one in dict.fromkeys(plan.unplaced))
        yield f"No stock for: {left}."
    if isinstance(plan, BarPlan):
        longest = max((bar.length for bar in plan.stock), default=0.0)
        for one in dict.fromkeys(plan.unplaced):
            if plan.pieces[one].length > longest:
                yield f"  {plan.pieces[one].mark}: {' '.join(ways_out(plan.pieces[one], longest, Joints(join) if join else None))}"
    pounds = measure.show_number(plan.cost_pence / 100, 2)
    good = "for what can be cut" if plan.unplaced else how_good(plan.cost_pence, plan.bound_pence, proven=plan.proven)
    yield f"New stock £{pounds}, {good}."


def how_good(cost: int, bound: int, *, proven: bool) -> str:
    """Proven best, or how far it may be from the least possible."""
    if proven:
        return "proven best"
    return f"within {(cost - bound) / max(bound, 1) * 100:.1f} % of the least possible"
