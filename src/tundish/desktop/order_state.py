"""What was ordered for the open job, and what is still to be: asked by every page that shows it."""

from __future__ import annotations

from tundish.desktop.workspace import Workspace
from tundish.documents.order_list import Placed
from tundish.estimate import Estimate
from tundish.procurement.outstanding import Still


def still_of(workspace: Workspace, estimate: Estimate) -> tuple[Still, ...]:
    """Every pick of the job with what is still to be ordered of it."""
    from tundish.store import placed

    return placed.still_of(workspace.store, workspace.job_key, estimate)


def to_send(still: tuple[Still, ...]) -> int:
    """How many suppliers have an order to be sent."""
    return len({one.pick.offer.supplier for one in still if one.pick.packs})


def shortages(still: tuple[Still, ...]) -> dict[str, int]:
    """Packs that were ordered and will not come, by item, until they are ordered again."""
    return {one.pick.offer.item: min(one.short, one.pick.packs) for one in still if one.short and one.pick.packs}


def placed_of(workspace: Workspace, estimate: Estimate) -> tuple[Placed, ...]:
    """The orders of the job for paper: each as it was sent, then what is still to be sent to each supplier."""
    from tundish.store import placed

    return placed.placed_of(workspace.store, workspace.job_key, estimate)
