"""The steel of the pre-wall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.members import FLOOR_RAIL, RAIL_NOGGIN, TOP_RAIL, TRIMMER, UPRIGHT, WALL_TIE, marked, to_cut
from tundish.rules.rule import Need, rule

_GROUPS = (
    ("rails", TOP_RAIL + FLOOR_RAIL),
    ("uprights", UPRIGHT),
    ("wall ties", WALL_TIE),
    ("trimmers", TRIMMER),
    ("rail noggins", RAIL_NOGGIN),
)


@rule(
    "prewall/steel",
    figures=("prewall.upright_centres", "prewall.near", "prewall.end_gap", "prewall.tie_centres", "prewall.tie_foot"),
    source="common practice; upright centres follow the board",
)
def steel(room: Room, book: Book) -> Iterator[Need]:
    """The pre-wall is framed with strut: rails, uprights and ties.

    An upright at each end, or at the frame front of another as high that stands against it there, and between supports as many as keep
    them within the upright centres; the legs of a frame are supports too. A rail along the top, floor rails between the frames, trimmers
    under and over every opening, noggins behind rails, and ties back to the wall up every upright; none where it is self-standing.
    """
    if not room.of_steel:
        return
    for what, letters in _GROUPS:
        yield from to_cut(marked(room, letters), what, item=room.strut.code)
