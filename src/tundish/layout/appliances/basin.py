"""A wall-hung washbasin."""

from __future__ import annotations

from tundish.figure import Figure
from tundish.layout.appliances.kind import Hung, Kind
from tundish.layout.appliances.piped import hot_and_cold


def figures(hung: Hung, shared: dict[str, Figure]) -> dict[str, Figure]:
    """Its waste and its two supplies."""
    return hot_and_cold(hung, shared, "Top of basin")


KIND = Kind(
    key="basin",
    title="Basin",
    ware="basin",
    frame="basin frame",
    top="Top of basin",
    studs="Fixing bolts",
    ends=("waste", "hot", "cold"),
    own=figures,
    ware_sizes=("top_to_waste", "top_to_supply", "supply_spacing"),
    extras=(("tap", "tap"),),
    plain="basin",
    many="Basins",
    agreed="Top of the basin",
    collars=3,
    hangs=160.0,
    rod=(("top", "Top of basin"), ("studs", "Basin studs"), ("supply", "Hot and cold"), ("waste", "Basin waste")),
    fixing_set="fixing set M10",
    traps=("basin waste", "basin trap 32"),
)
