"""What each appliance is hung with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.rule import Need, rule


@rule("frames/fixing-sets", source="common practice; sizes of the studs from memory")
def fixing_sets(room: Room, book: Book) -> Iterator[Need]:
    """Each appliance is hung with one fixing set of studs, sleeves and nuts.

    M12 for WC and bidet, M10 for basin and urinal. Many frames bring theirs; what a kit holds is not bought again.
    """
    for one in room.framed:
        yield Need(each(1, one.name), "second fix", f"hangs {one.name}", role=KINDS[one.kind].fixing_set)
