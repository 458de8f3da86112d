"""What the floor rails are held down with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, number, total
from tundish.layout.room import Member, Room
from tundish.rules.amounts import whole_spaces
from tundish.rules.grounds import into_floor
from tundish.rules.members import FLOOR_RAIL, marked
from tundish.rules.rule import Need, rule


@rule("fixings/floor-rails", figures=("fixings.rail_centres",), source="common practice")
def floor_rail_fixings(room: Room, book: Book) -> Iterator[Need]:
    """Floor rails are fixed near both ends and every 400 between.

    So are the sole plates of studwork.
    """
    rails = marked(room, FLOOR_RAIL)
    if rails:
        apart = book.figure("fixings.rail_centres")
        places = total([_places(one, apart) for one in rails], "Places along the rails", "")
        amount = (places * number(1, "each", "Fixings at each place")).named("Fixings of floor rails")
        yield Need(amount, "frames", f"{len(rails)} floor rails", role=into_floor(room))


def _places(rail: Member, apart: Figure) -> Figure:
    return (whole_spaces(rail.length, apart, f"{rail.mark}, spaces") + 1).named(f"{rail.mark}, both ends and between")
