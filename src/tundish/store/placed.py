"""The orders of a job as papers show them: sent ones as they were sent, and what is still to be."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import TYPE_CHECKING

from tundish.catalogue.item import Supplier
from tundish.documents.order_list import Asked, Placed, asked
from tundish.estimate import Estimate
from tundish.procurement.outstanding import Still, still_to_order
from tundish.procurement.split import carriage_of
from tundish.store.orders import Orders, SentOrder, ordered

if TYPE_CHECKING:
    from tundish.store.keep import Store


def still_of(store: Store, job: str, estimate: Estimate) -> tuple[Still, ...]:
    """Every pick of the job with what is still to be ordered of it; stock and orders know the job by `job`."""
    return still_to_order(estimate.buying, ordered(Orders(store).all(job)))


def placed_of(store: Store, job: str, estimate: Estimate) -> tuple[Placed, ...]:
    """The orders of the job for paper: each as it was sent, then what is still to be sent to each supplier."""
    sent = tuple(each for each in Orders(store).all(job) if each.sent)
    still = still_of(store, job, estimate)
    suppliers = {order.supplier.key: order.supplier for order in estimate.buying.orders}
    drafts = []
    for key, supplier in suppliers.items():
        picks = [one.pick for one in still if one.pick.offer.supplier == key and one.pick.packs]
        if picks:
            goods = sum((pick.cost for pick in picks), Decimal(0))
            drafts.append(Placed(supplier, tuple(asked(pick) for pick in picks), carriage_of(supplier, goods)))
    return (*(placed(each, estimate.book.suppliers) for each in sent), *drafts)


def placed(order: SentOrder, suppliers: Mapping[str, Supplier]) -> Placed:
    """A kept order as papers show it; a supplier that is gone is known by its key."""
    free = Decimal(0)
    supplier = suppliers.get(order.supplier) or Supplier(order.supplier, order.supplier, "", "", "", free, free, 0)
    lines = tuple(Asked(one.item, one.code, one.packs, one.pack, one.price, one.length, one.width, one.short) for one in order.lines)
    return Placed(supplier, lines, carriage_of(supplier, order.goods), order.number, order.sent, order.how)
