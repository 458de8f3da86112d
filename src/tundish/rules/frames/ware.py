"""What is hung on the frames, and what goes on it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.rule import Need, rule

_PLATED: Final = ("wc", "urinal")
_TAPPED: Final = ("basin", "bidet")


@rule("frames/ware", source="common practice")
def ware(room: Room, book: Book) -> Iterator[Need]:
    """Each frame carries its appliance, and a WC its seat and flush plate, a basin or bidet its tap.

    Ware, seat and tap that the client supplies are listed and not priced. A flush plate belongs to the frame and never is the client's.
    """
    for one in room.placed:
        chosen = one.choice
        parts = (
            (one.ware.code, True, "is"),
            (chosen.seat if one.kind == "wc" else "", True, "seat of"),
            (chosen.plate if one.kind in _PLATED else "", False, "plate of"),
            (chosen.tap if one.kind in _TAPPED else "", True, "tap of"),
        )
        for code, may_be_own, does in parts:
            if code:
                yield Need(each(1, one.name), "second fix", f"{does} {one.name}", item=code, own=chosen.own and may_be_own)
