"""The studwork of a timber pre-wall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.members import FLOOR_RAIL, NOGGIN, RAIL_NOGGIN, TOP_RAIL, TRIMMER, UPRIGHT, WALL_TIE, marked, to_cut
from tundish.rules.rule import Need, rule

_GROUPS = (
    ("plates", TOP_RAIL + FLOOR_RAIL),
    ("studs", UPRIGHT),
    ("noggins", NOGGIN),
    ("wall ties", WALL_TIE),
    ("trimmers", TRIMMER),
    ("rail noggins", RAIL_NOGGIN),
)


@rule(
    "prewall/timber",
    figures=("prewall.upright_centres", "prewall.near", "prewall.end_gap"),
    source="common practice; 63 x 38 studs and plates: NHBC Standards 6.3.9",
)
def timber(room: Room, book: Book) -> Iterator[Need]:
    """The pre-wall is framed with studwork: plates, studs, noggins and ties.

    Studs stand at both ends, each side of every frame, and between within the upright centres; one row of noggins, and a tie to
    the wall for every stud. Trimmers under and over every opening.
    """
    if room.of_steel:
        return
    for what, letters in _GROUPS:
        yield from to_cut(marked(room, letters), what, role="timber stud")
