"""The ways to buy that are known, with what each comes to, and why it is bought so: at once, and once the best was looked for."""

from __future__ import annotations

from typing import Final

from tundish.estimate import Estimate
from tundish.procurement.purchase import Way
from tundish.procurement.share import way_taken

FIRST_FOUND: Final = "The first split among suppliers that was found: a better one, and the other ways to buy, are being looked for."


class WaysToBuy:
    """What was told of the open job last. A first answer that buys the same has the same reason; another says what it comes to."""

    def __init__(self) -> None:
        self.forget()

    def forget(self) -> None:
        """Another job is opened: what was told of the last says nothing of it."""
        self.ways: tuple[Way, ...] = ()
        self.reason = ""
        self._of: tuple[object, ...] = ()

    def take(self, estimate: Estimate) -> int:
        """Take what an estimate tells; gives the place of the way that is bought by, −1 where nothing is bought."""
        buying, wishes = estimate.buying, estimate.job.buying
        of = (wishes, tuple((pick.offer.key, pick.packs) for order in buying.orders for _, pick in order.rows))
        taken = way_taken(buying, wishes, estimate.book)
        aims = [(way.aim, way.supplier) for way in buying.ways or self.ways]
        now = (taken.aim, taken.supplier)
        place = aims.index(now) if now in aims else -1
        if buying.ways:
            self.ways, self.reason, self._of = buying.ways, buying.reason, of
        elif not buying.orders:
            self.forget()
            return -1
        elif of != self._of:
            before, after = self.ways[: max(place, 0)], self.ways[place + 1 :]
            self.ways, self.reason, place = (*before, taken, *after), FIRST_FOUND, max(place, 0)
        return place
