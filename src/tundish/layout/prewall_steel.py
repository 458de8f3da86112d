"""The members of a pre-wall of strut. Rails lie flat; uprights stand with their face to the room."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout import framing
from tundish.layout.design import SELF_STANDING
from tundish.layout.framing import Stuff
from tundish.layout.makers import size
from tundish.layout.openings import trimmers
from tundish.layout.outline import Outline
from tundish.layout.rails import longest_bar
from tundish.layout.room import Member, Placed
from tundish.layout.supports import CLOSEST, Stand
from tundish.layout.ties import wall_ties


def members(
    outline: Outline, stands: Sequence[Stand], supports: Sequence[Figure], placed: Sequence[Placed], book: Book
) -> tuple[Member, ...]:
    """Uprights U, top rail T, floor rails F and wall ties W, each numbered from the left."""
    face, depth = outline.strut.sizes["face"][0], size(outline.strut, "depth", "Depth of strut")
    upright, rail = (face, depth.value), (depth.value, face)
    stuff = Stuff(outline, "strut", depth, upright, rail, longest_bar(outline.strut, book))
    standing = tuple(framing.uprights(stuff, stands, "upright"))
    return (
        *standing,
        *framing.top(stuff, supports, book, "top rail"),
        *framing.floor(stuff, stands, supports, book, "floor rail"),
        *trimmers(stuff, stands, placed),
        *_ties(stuff, standing, book),
    )


def _ties(stuff: Stuff, uprights: Sequence[Member], book: Book) -> Iterator[Member]:
    """As many to an upright as its height wants; the topmost lies against its head, under the top rail."""
    foot, steel = book.figure("prewall.tie_foot"), stuff.outline.tops.steel
    straight = (stuff.outline.depth - stuff.flat - foot).named("Wall tie")
    if straight.value <= 0 or stuff.outline.standing.prewall.built_of == SELF_STANDING:
        return
    rows = math.ceil(round(steel.value / max(book.figure("prewall.tie_centres").value, CLOSEST), 9))
    levels = [steel * (row / rows) - 2 * stuff.flat.value for row in range(1, rows + 1)]
    places = [(upright, level) for upright in uprights for level in levels if _meets(upright, level.value, steel.value)]
    yield from wall_ties(stuff, straight, foot.value, places)


def _meets(upright: Member, z: float, top: float) -> bool:
    """Whether a tie at a level meets the upright: one that is cut for an opening is tied where it is."""
    return upright.z <= z and (z <= upright.z + upright.length.value or upright.z + upright.length.value >= top - 2 * upright.section[0])
