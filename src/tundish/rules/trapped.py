"""What an appliance is trapped with, as it was chosen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Placed

IN_THE_WALL: Final = "basin trap 32 in the wall"
_CHOSEN: Final[Mapping[str, tuple[str, ...]]] = {
    "exposed bottle trap": ("basin trap 32 seen",),
    "half pedestal": ("basin trap 32 covered", "half pedestal"),
    "hidden in the wall": (IN_THE_WALL,),
}


def trapped_with(one: Placed) -> Iterator[str]:
    """The roles of its waste, its trap and what covers it."""
    chosen = _CHOSEN.get(one.choice.trap, ()) if one.kind == "basin" else ()
    for role in KINDS[one.kind].traps:
        yield from chosen if chosen and role == "basin trap 32" else (role,)
