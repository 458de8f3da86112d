"""A shower valve in the wall, on a support bar between two uprights; its outlet goes up to the head."""

from __future__ import annotations

from tundish.figure import Figure
from tundish.layout.appliances.kind import Hung, Kind
from tundish.layout.appliances.piped import level_supplies


def figures(hung: Hung, shared: dict[str, Figure]) -> dict[str, Figure]:
    """Its two supplies, the height of its head and what is cut to reach it."""
    head = (hung.outline.finished_floor + hung.head).named(f"Shower head, {hung.name}")
    return level_supplies(hung, shared) | {"head": head, "riser": (head - shared["top"]).named(f"Riser to the head, {hung.name}")}


KIND = Kind(
    key="shower valve",
    title="Shower valve",
    ware="shower valve",
    frame="support bar",
    top="Middle of shower valve",
    studs="",
    ends=("hot", "cold"),
    own=figures,
    ware_sizes=("supply_spacing",),
    plain="shower valve",
    many="Shower valves",
    agreed="Middle of the shower valve",
    collars=("pipe collar",) * 2,
    hangs=90.0,
    rod=(("head", "Shower head"), ("top", "Shower valve")),
    on_bar=True,
)
