"""Marking pieces as cut, and putting what is left of their bars on the rack."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tundish.catalogue.item import RackPiece
from tundish.cutting.plan import BarCut, BarPlan
from tundish.cutting.plans import CutPlan
from tundish.cutting.sawn import Sawn
from tundish.estimate import Estimate, Job
from tundish.field import Entry

if TYPE_CHECKING:
    from tundish.store.keep import Store


@dataclass(frozen=True, slots=True)
class Offcut:
    """What is left of one bar that is cut to its end: `rack` is the key of the rack piece it was, "" for a new bar."""

    item: str
    bar: str
    bar_length: float
    rest: float
    rack: str
    worth_keeping: bool


def marked(job: Job, plan: CutPlan, mark: str) -> Job:
    """The job with a piece of a bar marked as cut where the plan has it."""
    row, cut = _bar_of(plan, mark)
    if cut is None or not isinstance(plan.plan, BarPlan):
        return job
    source, stock = plan.sources[cut.bar], plan.plan.stock[cut.bar]
    place = next(one for one in cut.pieces if plan.cuts[one].mark == mark)
    on_rack = isinstance(source, RackPiece)
    one = Sawn(
        item=plan.item.code,
        mark=mark,
        long=Entry(plan.plan.pieces[place].length),
        bar=plan.begun[row] if row < len(plan.begun) else source.key if on_rack else _next_bar(job, plan.item.code),
        bar_long=Entry(stock.length),
        code="" if on_rack else source.code,
    )
    return replace(job, sawn=(*job.sawn, one))


def unmarked(job: Job, plan: CutPlan, mark: str) -> Job:
    """The job with a piece to cut again."""
    return replace(job, sawn=tuple(one for one in job.sawn if (one.item, one.mark) != (plan.item.code, mark)))


def offcuts_of(estimate: Estimate) -> tuple[Offcut, ...]:
    """What is left of the bars of which every planned piece is cut, and which is not on the rack yet."""
    keep = estimate.book.figure("cutting.keep").value
    gone = {(one.item, one.bar) for one in estimate.job.sawn if one.rest_gone}
    made = []
    for plan in estimate.cuts:
        if not isinstance(plan.plan, BarPlan):
            continue
        for bar, cut in zip(plan.begun, plan.plan.cuts, strict=False):
            finished = all(plan.cuts[one].mark in plan.done for one in cut.pieces)
            if finished and (plan.item.code, bar) not in gone:
                source = plan.sources[cut.bar]
                rack = bar if isinstance(source, RackPiece) else ""
                rest = cut.remainder
                made.append(Offcut(plan.item.code, bar, plan.plan.stock[cut.bar].length, rest, rack, rest >= keep))
    return tuple(made)


def keep_offcuts(store: Store, job: str, offcuts: tuple[Offcut, ...]) -> tuple[str, ...]:
    """Enter them in the ledger: the bar is used, what is left of it is put by; gives each new rack piece in words."""
    from tundish.store.ledger import USED, Ledger

    ledger = Ledger(store)
    names = []
    for each in offcuts:
        if each.rack:
            ledger.take_piece(each.rack, USED, job)
        else:
            here = [one for one in ledger.on_hand() if (one.item, one.job) == (each.item, job) and one.amount >= each.bar_length]
            if here:
                ledger.move(each.item, -each.bar_length, USED, place=here[0].place, job=job, note=f"bar {each.bar}")
        if each.worth_keeping:
            key = ledger.put_by(RackPiece("", each.item, float(int(each.rest)), place="van rack"), note=f"from job {job}")
            names.append(f"{key} {int(each.rest):,}")
    return tuple(names)


def _bar_of(plan: CutPlan, mark: str) -> tuple[int, BarCut | None]:
    if isinstance(plan.plan, BarPlan):
        for row, cut in enumerate(plan.plan.cuts):
            if any(plan.cuts[one].mark == mark for one in cut.pieces):
                return row, cut
    return 0, None


def _next_bar(job: Job, item: str) -> str:
    numbers = [int(one.bar[1:]) for one in job.sawn if one.item == item and one.bar[:1] == "N" and one.bar[1:].isdecimal()]
    return f"N{max(numbers, default=0) + 1}"
