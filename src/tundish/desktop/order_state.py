"""What was ordered for the open job, and what is still to be: asked by every page that shows it."""

from __future__ import annotations

from tundish.desktop.workspace import Workspace
from tundish.estimate import Estimate
from tundish.procurement.outstanding import Still, still_to_order


def still_of(workspace: Workspace, estimate: Estimate) -> tuple[Still, ...]:
    """Every pick of the job with what is still to be ordered of it."""
    from tundish.store.orders import Orders, ordered

    return still_to_order(estimate.buying, ordered(Orders(workspace.store).all(workspace.job_key)))


def to_send(still: tuple[Still, ...]) -> int:
    """How many suppliers have an order to be sent."""
    return len({one.pick.offer.supplier for one in still if one.pick.packs})


def shortages(still: tuple[Still, ...]) -> dict[str, int]:
    """Packs that were ordered and will not come, by item, until they are ordered again."""
    return {one.pick.offer.item: min(one.short, one.pick.packs) for one in still if one.short and one.pick.packs}
