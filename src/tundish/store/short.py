"""What is short: the needs of jobs accepted and not done against stock and the orders under way, and what is under its level."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from tundish.catalogue.item import RackPiece
from tundish.cutting.plan import KEPT_SIDE, BarCut, SheetCut
from tundish.estimate import Estimate, Job, estimate
from tundish.procurement.outstanding import Short, shortfall
from tundish.procurement.purchase import Purchase
from tundish.store.ledger import PLACES, USED, Holding, Ledger
from tundish.store.orders import Orders
from tundish.store.shelf import used_up_in

if TYPE_CHECKING:
    from tundish.store.keep import Store

LEFT_OVER: Final = "left over"


def short_of(store: Store) -> tuple[Short, ...]:
    """Every item that is lacking or under its level; what such a job has used already counts as had."""
    ledger = Ledger(store)
    jobs: dict[str, Job] = {}
    for row in store.jobs():
        opened, _ = store.open(row.id) if not row.put_away else (None, 0)
        if opened is not None and opened.job is not None and opened.job.buying.under_way:
            jobs[store.key_of(row.id)] = opened.job
    buyings = [estimate(job, store.book(key)).buying for key, job in jobs.items()]
    had: dict[str, float] = defaultdict(float)
    for holding in ledger.on_hand():
        # What is kept for a job that is not under way covers no other's need.
        had[holding.item] += holding.amount if holding.job in {"", *jobs} else 0.0
    for moved in ledger.movements():
        if moved.what == USED and moved.job in jobs and not moved.piece:
            had[moved.item] -= moved.amount
    coming: dict[str, float] = defaultdict(float)
    for order in Orders(store).all():
        for line in order.lines if order.sent and order.job in {"", *jobs} else ():
            coming[line.item] += line.coming * line.pack
    levels = {item: (each.level, each.amount) for item, each in ledger.reorders().items()}
    return shortfall(buyings, had, coming, levels)


def close_stock(store: Store, worked: Estimate, job: str) -> tuple[str, ...]:
    """Put the stock of a finished job straight: what it needed is used, what is left is free again; gives what is left in words.

    Whole bars and sheets go on the rack. Of a material of which pieces were marked as cut, what was cut is used already; of one of
    which none was marked, all that was bought is taken to be used, and of what was kept of the rack what the plan leaves is put by.
    """
    ledger = Ledger(store)
    sawn = {one.item for one in worked.job.sawn}
    needed = {each.line.item.code: _used(each, sawn) for each in worked.buying.purchases}
    sizes = {line.item: (line.length, line.width) for order in Orders(store).all(job) for line in order.lines if line.length}
    said = []
    opened: dict[str, float] = defaultdict(float)
    for holding in ledger.on_hand():
        if holding.job != job or holding.amount <= 0:
            continue
        used = min(needed.get(holding.item, 0.0), holding.amount)
        needed[holding.item] = needed.get(holding.item, 0.0) - used
        if used:
            opened[holding.item] += used
            ledger.move(holding.item, -used, USED, place=holding.place, job=job)
        left = round(holding.amount - used, 6)
        if left > 0:
            _let_go(ledger, replace(holding, amount=left), sizes.get(holding.item, (0.0, 0.0)))
            said.append(f"{left:g} {worked.book.items[holding.item].name if holding.item in worked.book.items else holding.item}")
    said += _out_of_kits(ledger, worked, job, opened)
    _close_rack(ledger, worked, job)
    return tuple(said)


def _out_of_kits(ledger: Ledger, worked: Estimate, job: str, opened: Mapping[str, float]) -> Iterator[str]:
    """Put what the kits that were used hold besides what the job took of it in the van; gives it in words."""
    held: dict[str, float] = defaultdict(float)
    for kit, amount in opened.items():
        for part in worked.book.in_kit(kit):
            held[part.item] += part.amount * amount
    for purchase in worked.buying.purchases:
        held[purchase.line.item.code] -= purchase.from_kits.value
    for code, amount in held.items():
        left = round(amount, 6)
        if left > 0:
            ledger.move(code, left, LEFT_OVER, place=PLACES[0], note=f"out of a kit, left over from job {job}")
            yield f"{left:g} {worked.book.item(code).name}"


def _close_rack(ledger: Ledger, worked: Estimate, job: str) -> None:
    """What was kept of the rack: used, with what is left of it put by, where nothing of its material was marked as cut; else free again."""
    sawn = {one.item for one in worked.job.sawn}
    kept = {piece.key for piece, _ in ledger.pieces() if piece.job == job}
    keep = worked.book.figure("cutting.keep").value
    for plan in worked.cuts:
        for cut in plan.plan.cuts if plan.item.code not in sawn else ():
            source = plan.sources[cut.bar if isinstance(cut, BarCut) else cut.sheet]
            if not isinstance(source, RackPiece) or source.key not in kept:
                continue
            ledger.take_piece(source.key, USED, note=used_up_in(job))
            for length, width in _left_of(cut, keep):
                piece = RackPiece("", plan.item.code, float(int(length)), float(int(width)), source.place)
                ledger.put_by(piece, note=f"{LEFT_OVER} from job {job}")
    ledger.keep_pieces(job, ())


def _left_of(cut: BarCut | SheetCut, keep: float) -> tuple[tuple[float, float], ...]:
    """The sizes of what is worth keeping of a bar or sheet, width 0 for a bar."""
    if isinstance(cut, BarCut):
        return ((cut.remainder, 0.0),) if cut.remainder >= keep else ()
    return tuple((rest.length, rest.width) for rest in cut.remainders if min(rest.length, rest.width) >= KEPT_SIDE)


def _used(purchase: Purchase, sawn: set[str]) -> float:
    item = purchase.line.item
    if purchase.line.cuts:
        return 0.0 if item.code in sawn else sum(pick.amount for pick in purchase.picks)
    return purchase.line.needed - purchase.from_kits.value


def _let_go(ledger: Ledger, left: Holding, size: tuple[float, float]) -> None:
    """What is left of a holding: whole bars and sheets on the rack, all else in the van, free."""
    length, width = size
    note = f"left over from job {left.job}"
    ledger.move(left.item, -left.amount, LEFT_OVER, place=left.place, job=left.job, note=note)
    if length:
        for _ in range(int(left.amount if width else left.amount // length)):
            ledger.put_by(RackPiece("", left.item, length, width, "van rack"), note=note)
    else:
        ledger.move(left.item, left.amount, LEFT_OVER, place=PLACES[0], note=note)
