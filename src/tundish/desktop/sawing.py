"""Marking pieces as cut, and putting what is left of their bars and sheets on the rack."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tundish.catalogue.item import RackPiece
from tundish.cutting.plan import KEPT_SIDE, BarCut, Rect, SheetCut
from tundish.cutting.plans import CutPlan
from tundish.cutting.saw_order import holds, inside_of, left_after
from tundish.cutting.sawn import Rest, Sawn
from tundish.cutting.sawn_sheets import as_rests, rests_of
from tundish.estimate import Estimate, Job
from tundish.field import Entry

if TYPE_CHECKING:
    from tundish.store.keep import Store


@dataclass(frozen=True, slots=True)
class Offcut:
    """What is left of one bar or sheet of which every planned piece is cut: `used` is what it was in the item's unit.

    `rack` is the key of the rack piece it was, "" for a new one; `kept` are the sizes worth keeping, width 0 for a bar.
    """

    item: str
    bar: str
    used: float
    rack: str
    kept: tuple[tuple[float, float], ...]


def marked(job: Job, plan: CutPlan, mark: str) -> Job:
    """The job with a piece marked as cut where the plan has it."""
    for row, cut in enumerate(_cuts(plan)):
        places = cut.pieces if isinstance(cut, BarCut) else tuple(one.piece for one in cut.places)
        place = next((one for one in places if plan.cuts[one].mark == mark), None)
        if place is not None:
            return replace(job, sawn=(*job.sawn, _sawn(job, plan, (row, place))))
    return job


def unmarked(job: Job, plan: CutPlan, mark: str) -> Job:
    """The job with a piece to cut again; its place on a sheet is whole again for whatever was cut after it."""
    gone = next(one for one in job.sawn if (one.item, one.mark) == (plan.item.code, mark))
    left = [one for one in job.sawn if one is not gone]
    after = [one for one in job.sawn if (one.item, one.bar) == (gone.item, gone.bar)]
    if gone.bar_wide is not None and after[-1] is not gone:
        place = Rest(x=gone.x, y=gone.y, long=gone.long, wide=gone.wide)
        left = [replace(one, rests=(*one.rests, place)) if one is after[-1] else one for one in left]
    return replace(job, sawn=tuple(left))


def offcuts_of(estimate: Estimate) -> tuple[Offcut, ...]:
    """What is left of the bars and sheets of which every planned piece is cut, and which is not on the rack yet."""
    keep = estimate.book.figure("cutting.keep").value
    gone = {(one.item, one.bar) for one in estimate.job.sawn if one.rest_gone}
    made = []
    for plan in estimate.cuts:
        for bar, cut in zip(plan.begun, _cuts(plan), strict=False):
            places = cut.pieces if isinstance(cut, BarCut) else tuple(one.piece for one in cut.places)
            if (plan.item.code, bar) in gone or not all(plan.cuts[one].mark in plan.done for one in places):
                continue
            source = plan.sources[cut.bar if isinstance(cut, BarCut) else cut.sheet]
            used = source.length if isinstance(cut, BarCut) else 1.0
            kept = ((cut.remainder, 0.0),) if isinstance(cut, BarCut) else _whole_of(estimate.job, plan.item.code, bar)
            worth = tuple(size for size in kept if size[0] >= keep or (size[1] and min(size) >= KEPT_SIDE))
            made.append(Offcut(plan.item.code, bar, used, bar if isinstance(source, RackPiece) else "", worth))
    return tuple(made)


def keep_offcuts(store: Store, job: str, offcuts: tuple[Offcut, ...]) -> tuple[str, ...]:
    """Enter them in the ledger: what was cut is used, what is left of it is put by; gives each new rack piece in words."""
    from tundish.store.ledger import USED, Ledger

    ledger = Ledger(store)
    names = []
    for each in offcuts:
        if each.rack:
            ledger.take_piece(each.rack, USED, job)
        else:
            here = [one for one in ledger.on_hand() if (one.item, one.job) == (each.item, job) and one.amount >= each.used]
            if here:
                ledger.move(each.item, -each.used, USED, place=here[0].place, job=job, note=f"bar {each.bar}")
        for length, width in each.kept:
            key = ledger.put_by(RackPiece("", each.item, float(int(length)), float(int(width)), "van rack"), note=f"from job {job}")
            names.append(f"{key} {int(length):,}" + (f" × {int(width):,}" if width else ""))
    return tuple(names)


def _cuts(plan: CutPlan) -> tuple[BarCut | SheetCut, ...]:
    return plan.plan.cuts


def _sawn(job: Job, plan: CutPlan, at: tuple[int, int]) -> Sawn:
    """What is remembered of the piece in a row of the plan at a place among the pieces."""
    row, place = at
    cut, item = _cuts(plan)[row], plan.item.code
    source = plan.sources[cut.bar if isinstance(cut, BarCut) else cut.sheet]
    one = Sawn(
        item=item,
        mark=plan.cuts[place].mark,
        long=Entry(plan.plan.pieces[place].length),
        bar=plan.begun[row] if row < len(plan.begun) else source.key if isinstance(source, RackPiece) else _next_bar(job, item),
        bar_long=Entry(source.length),
        code="" if isinstance(source, RackPiece) else source.code,
    )
    return one if isinstance(cut, BarCut) else _on_sheet(job, (one, source.width), cut, plan)


def _on_sheet(job: Job, begun: tuple[Sawn, float], cut: SheetCut, plan: CutPlan) -> Sawn:
    """The same with where the piece lay and what is whole of its sheet after it."""
    one, wide = begun
    before = [each for each in job.sawn if (each.item, each.bar) == (one.item, one.bar)]
    long = one.bar_long.value if one.bar_long else 0.0
    parts = rests_of(before[-1]) if before else (Rect(0, 0, long, wide),)
    place = next(each for each in cut.places if plan.cuts[each.piece].mark == one.mark)
    part = next((each for each in parts if holds(each, place)), None)
    left = left_after(part, inside_of(part, cut), plan.plan.kerf, place) if part else ()
    rests = as_rests((*(each for each in parts if each is not part), *left))
    sized = replace(one, long=Entry(place.length), wide=Entry(place.width), bar_wide=Entry(wide))
    return replace(sized, x=Entry(place.x), y=Entry(place.y), rests=rests)


def _whole_of(job: Job, item: str, sheet: str) -> tuple[tuple[float, float], ...]:
    """The sizes of what is still whole of a sheet that is cut."""
    mine = [one for one in job.sawn if (one.item, one.bar) == (item, sheet)]
    return tuple((rest.length, rest.width) for rest in rests_of(mine[-1])) if mine else ()


def _next_bar(job: Job, item: str) -> str:
    numbers = [int(one.bar[1:]) for one in job.sawn if one.item == item and one.bar[:1] == "N" and one.bar[1:].isdecimal()]
    return f"N{max(numbers, default=0) + 1}"
