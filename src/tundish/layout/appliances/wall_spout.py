"""A tap in the wall, on a support bar between two uprights; what it fills has a waste of its own."""

from __future__ import annotations

from tundish.layout.appliances.kind import Kind
from tundish.layout.appliances.piped import level_supplies

KIND = Kind(
    key="wall spout",
    title="Wall spout",
    ware="wall spout",
    frame="support bar",
    top="Wall spout",
    studs="",
    ends=("hot", "cold"),
    own=level_supplies,
    ware_sizes=("supply_spacing",),
    plain="wall spout",
    many="Wall spouts",
    agreed="Wall spout",
    collars=("pipe collar",) * 2,
    hangs=60.0,
    rod=(("top", "Wall spout"),),
    on_bar=True,
)
