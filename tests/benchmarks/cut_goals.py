"""`python .ci/check.py --bench --instances DIR`: the cutting goals, one by one, over a folder of instances in the format of `question`."""

from __future__ import annotations

import argparse
import json
import statistics
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from tests.cutting.instance_check import faults
from tundish.cli.cut import After
from tundish.cutting.own_list import planned
from tundish.cutting.question import answer, question

PUBLISHED = ("bwmv_oriented", "bwmv_rotation", "csp2d_oriented")


@dataclass(frozen=True)
class Run:
    """One list planned in a time, and how long it took."""

    asked: dict[str, Any]
    answer: dict[str, Any]
    seconds: float

    @property
    def best(self) -> float:
        """The optimum, or the best that is known."""
        return float(self.asked["best_known"] if self.asked["optimum"] is None else self.asked["optimum"])

    @property
    def over(self) -> float:
        """Per cent over the best known."""
        return 100 * (float(self.answer["cost"]) - self.best) / self.best if self.best else 100.0 * bool(self.answer["cost"])

    @property
    def wrong(self) -> list[str]:
        """What the independent checker finds, and a proof that is contradicted."""
        found = faults(self.asked, self.answer)
        if self.answer["bound"] > self.best:
            found.append(f"the bound {self.answer['bound']} is over the best known {self.best}")
        return found


def run(asked: dict[str, Any], seconds: float) -> Run:
    """One list planned in so many seconds."""
    whole = question(asked)
    start = time.perf_counter()
    plan = planned(whole, stop=After(seconds))
    return Run(asked, answer(plan), time.perf_counter() - start)


def main(words: Sequence[str] | None = None) -> int:
    """0 when every goal that the folder has instances for is met."""
    asked = argparse.ArgumentParser(description="Cutting goals over a folder of instances.")
    asked.add_argument("folder", type=Path)
    asked.add_argument("--each", action="store_true", help="a line for every instance")
    options = asked.parse_args(words)
    lists = [json.loads(path.read_text()) for path in sorted(options.folder.glob("*.json"))]
    run(
        {"kind": "1d", "kerf": 0, "stock": [{"length": 9, "cost": 1}], "pieces": [{"length": 4, "qty": 3}], "best_known": 0, "optimum": 0},
        1,
    )
    done: list[Run] = []

    def runs(seconds: float, *groups: str) -> list[Run]:
        made = [run(each, seconds) for each in lists if each["group"] in groups]
        for one in made if options.each else ():
            proven = "proven" if one.answer["proven"] else ""
            print(f"  {one.asked['name']:32} {one.over:7.2f} % over {proven:7} {one.seconds * 1000:7.0f} ms")
        done.extend(made)
        return made

    met = [goal(runs) for goal in (_trade_bars, _big_bars, _one_size, _trade_sheets, _big_sheets)]
    bad = [(one.asked["name"], one.wrong) for one in done if one.wrong]
    met.append(_say("every plan valid, no proof contradicted", not bad, f"{len(done) - len(bad)} of {len(done)} {bad[:3] if bad else ''}"))
    return 0 if all(met) else 1


Runs = Callable[..., list[Run]]


def _trade_bars(runs: Runs) -> bool:
    made = runs(0.3, "trade_1d")
    if not made:
        return True
    best, proven = sum(one.over <= 0 for one in made), sum(one.answer["proven"] for one in made)
    median = statistics.median(one.seconds for one in made) * 1000
    met = best == len(made) and proven >= 0.9 * len(made) and median < 20
    return _say("bars, trade, 0.3 s: all optimal, 9 in 10 proven, median < 20 ms", met, f"{best}/{proven} of {len(made)}, {median:.1f} ms")


def _big_bars(runs: Runs) -> bool:
    made = runs(1, "big_1d")
    worst = max((one.over for one in made), default=0.0)
    return _say("bars, 2,000 pieces, 1 s: within 0.15 %", worst <= 0.15, f"worst {worst:.3f} %")


def _one_size(runs: Runs) -> bool:
    made = [one for one in runs(1, *PUBLISHED) if one.asked["optimum"] is not None]
    best = sum(one.over <= 0 for one in made)
    more = max((one.answer["cost"] - one.best for one in made), default=0)
    wanted = 34 if find_spec("packingsolver") is None else 39
    met = best >= len(made) * wanted / 42 and more <= 1
    return _say(f"sheets, one size, 1 s: {wanted} of 42 optimal, never 2 over", met, f"{best} of {len(made)}, {more:g} over at most")


def _trade_sheets(runs: Runs) -> bool:
    made = runs(0.3, "trade_2d")
    over = statistics.mean([one.over for one in made] or [0.0])
    proven = sum(one.answer["proven"] for one in made)
    return _say("sheets, trade, 0.3 s: mean <= 1.5 % over", over <= 1.5, f"{over:.2f} %, {proven} of {len(made)} proven")


def _big_sheets(runs: Runs) -> bool:
    made = runs(1, "big_2d", "cintra_multisize")
    over = statistics.mean([one.over for one in made] or [0.0])
    bound = statistics.mean([100 * (one.answer["cost"] / max(1, one.answer["bound"]) - 1) for one in made] or [0.0])
    met = over <= 2.5 and bound <= 3.5
    return _say("sheets, big and three sizes, 1 s: mean <= 2.5 % over, 3.5 % over the bound", met, f"{over:.2f} %, {bound:.2f} %")


def _say(goal: str, met: bool, words: str) -> bool:
    print(f"{'met   ' if met else 'MISSED'} {goal}: {words}", flush=True)
    return met


if __name__ == "__main__":
    sys.exit(main())
