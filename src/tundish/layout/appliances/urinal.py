"""A urinal bowl. Its height is that of its lip; its studs stand above that."""

from __future__ import annotations

from tundish.figure import Figure
from tundish.layout.appliances.kind import Hung, Kind
from tundish.layout.appliances.piped import waste_and_supply


def figures(hung: Hung, shared: dict[str, Figure]) -> dict[str, Figure]:
    """Its waste, its one supply, and the flush plate where the frame has one."""
    made = waste_and_supply(hung, shared, "Lip of urinal", "Supply")
    if hung.frame.has("plate_at"):
        made["plate"] = hung.height("plate_at", "Flush plate")
    return made


KIND = Kind(
    key="urinal",
    title="Urinal",
    ware="urinal",
    frame="urinal frame",
    top="Lip of urinal",
    studs="Fixing studs",
    ends=("waste", "cold"),
    own=figures,
    ware_sizes=("top_to_waste", "top_to_supply"),
    extras=(("plate", "flush plate"),),
    plain="urinal",
    many="Urinals",
    agreed="Lip of the urinal",
    collars=("pipe collar", "pipe collar 50"),
    hangs=260.0,
    rod=(
        ("plate", "Urinal plate"),
        ("supply", "Urinal inlet"),
        ("studs", "Urinal studs"),
        ("top", "Lip of urinal"),
        ("waste", "Urinal waste"),
    ),
    fixing_set="fixing set M10",
    traps=("urinal waste", "urinal trap 40"),
)
