"""How what lies over the wall studs bends under the frames that pull at it, and how far it may sag."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import pairwise

from tundish.catalogue.book import Book
from tundish.figure import Figure, number, total
from tundish.layout.room import Member
from tundish.rules.beam import bend


def bent(strut: Member, pulls: Mapping[str, Figure], stiffness: float) -> tuple[Figure, Figure]:
    """The greatest moment and sag behind a strut over its wall studs, with `stiffness` E times I in Nmm², under each frame's pull.

    A pull is shared by the tie rods of its frame that hold to the strut.
    """
    rods = Counter(key for key, _ in strut.pulled)
    loads = [(place, pulls[key].value * 1000 / rods[key]) for key, place in strut.pulled]
    found, pulled = bend(strut.bears, loads, stiffness), total(tuple(pulls.values()), "Pull on the strut")
    moment = pulled * number(found.moment / 1e6 / pulled.value, "m", "Moment for each kN, over its studs")
    return moment, pulled * number(found.deflection / pulled.value, "mm/kN", "Sag for each kN")


def sag_limit(book: Book, studs: Sequence[float]) -> Figure:
    """The widest span over its share."""
    span = max(right - left for left, right in pairwise(studs))
    return (number(span, "mm", "Wall studs apart") / book.figure("loads.strut_sag")).named("Span over its share")
