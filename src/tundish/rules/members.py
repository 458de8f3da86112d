"""The pieces of a pre-wall by the letter of their mark, and as pieces to cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tundish.layout.room import Member, Room
from tundish.rules.amounts import in_all
from tundish.rules.rule import Cut, Need

UPRIGHT, TOP_RAIL, FLOOR_RAIL, WALL_TIE, WALL_STRUT, NOGGIN, FLOOR_NOGGIN, TRIMMER, RAIL_NOGGIN, BATTEN = "UTFWSNKRGJ"
"""Letters of the marks. In timber the uprights are studs, the rails plates."""


def marked(room: Room, letters: str) -> tuple[Member, ...]:
    """The members whose mark starts with one of the letters."""
    # One pre-wall has one lead to all its marks.
    first = next((one.mark.rfind(".") + 1 for one in room.members), 0)
    return tuple(one for one in room.members if one.mark[first] in letters)


def to_cut(members: Sequence[Member], what: str, *, why: str = "", role: str = "", item: str = "") -> Iterator[Need]:
    """What members are cut from, with each as a piece to cut; nothing where there are none."""
    if members:
        amount = in_all([one.length for one in members], what, f"{what.capitalize()}, {len(members)}")
        cuts = tuple(Cut(one.mark, one.length, one.what, one.where) for one in members)
        yield Need(amount, "frames", why or what, role=role, item=item, cuts=cuts)
