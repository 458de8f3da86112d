"""A wall-hung washbasin."""

from __future__ import annotations

from typing import Final

from tundish.figure import Figure
from tundish.layout.appliances.kind import Hung, Kind
from tundish.layout.appliances.piped import hot_and_cold


def figures(hung: Hung, shared: dict[str, Figure]) -> dict[str, Figure]:
    """Its waste and its two supplies: by its maker's sheet, or where a trap that is seen, covered or in the wall wants them."""
    made = hot_and_cold(hung, shared, "Top of basin")
    wanted = TRAPS.get(hung.choice.trap)
    if wanted is None:
        return made
    top, book = shared["top"], hung.book
    return made | {
        "waste": (top - book.figure(f"traps.{wanted}_waste")).named(f"Waste, {hung.name}"),
        "supply": (top - book.figure(f"traps.{wanted}_supply")).named(f"Hot and cold, {hung.name}"),
    }


TRAPS: Final = {"exposed bottle trap": "bottle", "half pedestal": "pedestal", "hidden in the wall": "hidden"}
"""What the figures of the rule book are called for each trap whose heights the maker's sheet does not set."""


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
    collars=("pipe collar", "pipe collar", "pipe collar 50"),
    hangs=160.0,
    rod=(("top", "Top of basin"), ("studs", "Basin studs"), ("supply", "Hot and cold"), ("waste", "Basin waste")),
    fixing_set="fixing set M10",
    traps=("basin waste", "basin trap 32"),
)
