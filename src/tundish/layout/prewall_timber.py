"""The members of a pre-wall of studwork: plates, studs, noggins, ties."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from tundish import measure
from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout import framing
from tundish.layout.framing import Stuff
from tundish.layout.makers import size
from tundish.layout.openings import trimmers
from tundish.layout.outline import TIMBER, Outline
from tundish.layout.rails import longest_bar
from tundish.layout.room import Member, Placed
from tundish.layout.supports import Stand
from tundish.layout.ties import wall_ties

ROLE = TIMBER


def members(
    outline: Outline, stands: Sequence[Stand], supports: Sequence[Figure], placed: Sequence[Placed], book: Book
) -> tuple[Member, ...]:
    """Studs U, head plate T, sole plates F, noggins N and wall ties W, each numbered from the left."""
    timber = book.role(ROLE)
    face, depth = size(timber, "face", "Thickness of timber"), size(timber, "depth", "Depth of timber")
    section = (face.value, depth.value)
    stuff = Stuff(outline, ROLE, face, section, section, longest_bar(timber, book))
    standing = tuple(framing.uprights(stuff, stands, "stud"))
    return (
        *standing,
        *framing.top(stuff, supports, book, "head plate"),
        *framing.floor(stuff, stands, supports, book, "sole plate"),
        *_noggins(stuff, stands),
        *trimmers(stuff, stands, placed),
        *_ties(stuff, standing, depth),
    )


def _noggins(stuff: Stuff, stands: Sequence[Stand]) -> Iterator[Member]:
    """One row at half height, in every bay between two studs but not across a frame."""
    face, y = stuff.flat.value, stuff.outline.depth.value - stuff.rail[1]
    z, count = stuff.outline.tops.steel.value / 2 - face / 2, 0
    for stand in stands:
        for stud, other in pairwise(stand.uprights):
            x = stud.value + face / 2
            length = ((stand.step or other - stud) - stuff.flat).named("Noggin")
            if length.value <= 0 or stand.on is not None or _opened(stuff, x, z, (length.value, face)):
                continue
            count += 1
            where = f"from {measure.show_length(x)} from left wall"
            yield Member(f"N{count}", "noggin", stuff.role, length, "x", x, y, z, stuff.rail, where)


def _opened(stuff: Stuff, x: float, z: float, size: tuple[float, float]) -> bool:
    """Whether an opening with its trimmers takes the place of a noggin."""
    flat = stuff.flat.value
    return any(
        each.between(x, x + size[0]) and each.open_foot.value - flat < z + size[1] and z < each.open_head.value + flat
        for each in stuff.outline.recesses
    )


def _ties(stuff: Stuff, studs: Sequence[Member], depth: Figure) -> Iterator[Member]:
    """One to a stud, of the same timber, from the wall to the back of the stud."""
    straight = (stuff.outline.depth - depth).named("Wall tie")
    if straight.value <= 0:
        return
    level = stuff.outline.tops.steel - stuff.flat.value - depth.value
    yield from wall_ties(stuff, straight, 0.0, [(each, level) for each in studs if each.z + each.length.value >= level.value])
