"""Whether rails have something behind the board to be fixed to."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.backing import rail_places
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.members import RAIL_NOGGIN, marked
from tundish.rules.rule import Finding, rule

_SOURCE = "common practice; a published answer on Approved Document M: a wall behind a WC takes 1.5 kN"


@rule("frames/rail-backing", source=_SOURCE)
def rail_backing(room: Room, book: Book) -> Iterator[Finding]:
    """Behind each drop-down rail and back rest there is a noggin, outside every frame.

    A frame's cistern stands where the noggin would be.
    """
    noggins = [(one.x, one.x + one.length.value, one.z, one.z + one.section[0]) for one in marked(room, RAIL_NOGGIN)]
    frames = [(one.left, one.right) for one in room.framed]
    for one in room.of_kind("wc"):
        for what, x, z in rail_places(one, book):
            backed = any(left <= x <= right and low <= z <= high for left, right, low, high in noggins)
            if backed and not any(left < x < right for left, right in frames):
                continue
            at = show_length(x)
            message = f"Nothing holds the {what} at {at} from the left wall: move the WC, or lengthen the pre-wall, so that it has a bay."
            yield Finding(f"Backing at {at}", "Clearances", "fails", None, "Own rule", _SOURCE, message=message, place=one.name)
