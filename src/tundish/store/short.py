"""What is short: the needs of every accepted job against stock and the orders under way, and what is under its reorder level."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from tundish.estimate import estimate
from tundish.procurement.outstanding import Short, shortfall
from tundish.store.ledger import USED, Ledger
from tundish.store.orders import Orders

if TYPE_CHECKING:
    from tundish.store.keep import Store


def short_of(store: Store) -> tuple[Short, ...]:
    """Every item that is lacking or under its level; what an accepted job has used already counts as had."""
    ledger = Ledger(store)
    jobs = []
    for row in store.jobs():
        opened, _ = store.open(row.id) if not row.put_away else (None, 0)
        if opened is not None and opened.job is not None and opened.job.buying.accepted:
            jobs.append(opened.job)
    numbers = {job.number for job in jobs}
    buyings = [estimate(job, store.book(job.number)).buying for job in jobs]
    had: dict[str, float] = defaultdict(float)
    for holding in ledger.on_hand():
        had[holding.item] += holding.amount
    for moved in ledger.movements():
        if moved.what == USED and moved.job in numbers and not moved.piece:
            had[moved.item] -= moved.amount
    coming: dict[str, float] = defaultdict(float)
    for order in Orders(store).all():
        for line in order.lines if order.sent else ():
            coming[line.item] += line.coming * line.pack
    levels = {item: (each.level, each.amount) for item, each in ledger.reorders().items()}
    return shortfall(buyings, had, coming, levels)


def put_back(store: Store, job: str) -> tuple[str, ...]:
    """What is left over of what was kept for a job is free again, where it lies; gives each in words."""
    ledger = Ledger(store)
    said = []
    for holding in ledger.on_hand():
        if holding.job == job and holding.amount > 0:
            note = f"left over from job {job}"
            ledger.move(holding.item, -holding.amount, LEFT_OVER, place=holding.place, job=job, note=note)
            ledger.move(holding.item, holding.amount, LEFT_OVER, place="van", note=note)
            said.append(f"{holding.amount:g} {holding.item}")
    return tuple(said)


LEFT_OVER = "left over"
