"""What of an order leaves the program as a file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tundish.catalogue.item import Offer
from tundish.documents.order_list import Placed
from tundish.documents.paper import lines_of, trader_of
from tundish.estimate import Estimate
from tundish.procurement.purchase import Pick

if TYPE_CHECKING:
    from tundish.writers.order_xml import OrderToWrite


def to_write(estimate: Estimate, order: Placed, issued: str) -> OrderToWrite:
    """An order with what stands round it, for UBL; `issued` is the ISO date of the file. Lines of items that are gone are left out."""
    from tundish.writers.order_xml import OrderToWrite

    job, key = estimate.job, order.supplier.key
    rows = tuple(
        (
            estimate.book.items[one.item],
            Pick(Offer(one.item, key, one.code, one.pack, one.price, issued, one.length, one.width), one.packs),
        )
        for one in order.lines
        if one.item in estimate.book.items
    )
    where = (job.client.name, *lines_of(job.client.address))
    return OrderToWrite(order.number, issued, job.terms.start, order.supplier, trader_of(estimate), where, rows, order.carriage)
