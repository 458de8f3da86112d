"""A wall-hung bidet."""

from __future__ import annotations

from tundish.figure import Figure
from tundish.layout.appliances.kind import Hung, Kind
from tundish.layout.appliances.piped import hot_and_cold


def figures(hung: Hung, shared: dict[str, Figure]) -> dict[str, Figure]:
    """Its waste and its two supplies."""
    return hot_and_cold(hung, shared, "Top of bidet")


KIND = Kind(
    key="bidet",
    title="Bidet",
    ware="bidet",
    frame="bidet frame",
    top="Top of bidet",
    studs="Fixing studs",
    ends=("waste", "hot", "cold"),
    own=figures,
    ware_sizes=("top_to_waste", "top_to_supply", "supply_spacing"),
    extras=(("tap", "tap"),),
    plain="bidet",
    many="Bidets",
    agreed="Top of the bidet",
    collars=("pipe collar", "pipe collar", "pipe collar 50"),
    hangs=350.0,
    rod=(("top", "Top of bidet"), ("studs", "Bidet studs"), ("supply", "Bidet supplies"), ("waste", "Bidet waste")),
    fixing_set="fixing set M12",
    traps=("basin waste", "basin trap 32"),
)
