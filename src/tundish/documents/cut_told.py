"""A plan of a cut list of its own in words, a line for each bar and each cut of a sheet."""

from __future__ import annotations

from collections.abc import Iterator

from tundish import measure
from tundish.cutting.joints import Joints, ways_out
from tundish.cutting.plan import BarPlan, SheetPlan
from tundish.cutting.saw_order import saw_order


def told(plan: BarPlan | SheetPlan, keep: float, join: int = 0) -> Iterator[str]:
    """The plan line by line, what has no stock, and what it costs; `join` is what a joint costs, pence, 0 where nothing is joined."""
    show = measure.show_length
    if isinstance(plan, BarPlan):
        for number, cut in enumerate(plan.cuts, 1):
            pieces = ", ".join(f"{plan.pieces[one].mark} {show(plan.pieces[one].length)}" for one in cut.pieces)
            rest = f"{'keep' if cut.remainder >= keep else 'scrap'} {show(cut.remainder)}"
            yield f"{number}. {plan.stock[cut.bar].name}, {show(plan.stock[cut.bar].length)} mm: {pieces}; {rest}"
    else:
        marks = [piece.mark for piece in plan.pieces]
        for number, sheet in enumerate(plan.cuts, 1):
            size = plan.stock[sheet.sheet]
            yield f"{number}. {size.name}, {show(size.length)} × {show(size.width)} mm:"
            yield from (f"   {words}" for words in saw_order(plan, sheet, marks))
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
