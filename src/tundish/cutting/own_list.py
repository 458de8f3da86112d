"""A cut list of its own, outside any job, planned."""

from __future__ import annotations

from tundish.cutting.bars import KEEP, plan_bars
from tundish.cutting.plan import BarPlan, Effort, SheetPlan
from tundish.cutting.question import Question
from tundish.cutting.sheets import plan_sheets
from tundish.cutting.until import Stop, never


def planned(asked: Question, keep: float = KEEP, stop: Stop = never, effort: Effort = Effort.PROOF) -> BarPlan | SheetPlan:
    """The best plan found until told to stop."""
    if asked.sheets:
        return plan_sheets(asked.pieces, asked.sheets, asked.kerf, asked.trim, effort, stop)
    return plan_bars(asked.pieces, asked.bars, asked.kerf, keep, effort, stop)
