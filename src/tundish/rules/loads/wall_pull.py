"""Whether what holds each frame to the wall stands its pull."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import zip_longest

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure
from tundish.layout.room import Member, Placed, Room
from tundish.measure import show_number
from tundish.rules.amounts import bare, several
from tundish.rules.grounds import into_wall
from tundish.rules.members import WALL_STRUT, marked, studs_crossed
from tundish.rules.planning import FIRST
from tundish.rules.pulls import pull
from tundish.rules.rule import Finding, judge, rule


@rule(
    "loads/wall-pull",
    figures=("loads.wc", "loads.bidet", "loads.basin", "loads.urinal", "fixings.each_wall_stud"),
    source="moments about the front of the feet; test loads of EN 997 and its like, from memory, and a frame maker's page",
)
def wall_pull(room: Room, book: Book) -> Iterator[Finding]:
    """The wall holds the head of each frame under its appliance's test load.

    The load at the front edge, by its reach from the frame, over the height of the brackets; shared by the tie rods on a solid wall,
    and by the screws of the wall strut on a stud wall. The feet carry the weight. A check for planning.
    """
    fixing = book.role(into_wall(room))
    for one, strut in zip_longest(room.tied, marked(room, WALL_STRUT)):
        what, count = _shared_by(room, book, one, strut)
        has = (pull(room, book, one) / count).named(f"Pull on each {what} of {one.name}")
        title = f"Pull on each {what}"
        if not fixing.has("pull_kn"):
            words = f"The maker's sheet of {fixing.name} gives no pull: enter it in the catalogue. {FIRST}"
            yield Finding(title, "Loads and tiles", "cannot tell", has, "Maker", fixing.sheet, message=words, place=one.name)
            continue
        most = fixing.size("pull_kn")
        state = judge(has, None, most)
        words = FIRST if state == "passes" else f"{_mend(fixing, strut, count.value * has.value / most.value)} {FIRST}"
        yield Finding(title, "Loads and tiles", state, has, "Maker", fixing.sheet, None, most, words, one.name)


def _shared_by(room: Room, book: Book, one: Placed, strut: Member | None) -> tuple[str, Figure]:
    """What the pull is shared by, and how many of them there are."""
    if strut is None:
        return "tie rod", bare(one.frame.size("brackets")).named("Tie rods")
    crossed = several(studs_crossed(room, strut), "Wall studs crossed")
    return "strut screw", (crossed * bare(book.figure("fixings.each_wall_stud"))).named("Screws of the wall strut")


def _mend(fixing: Item, strut: Member | None, wanted: float) -> str:
    if strut is None:
        return f"{fixing.name} does not hold this. Choose a stronger anchor for this wall, or add wall ties."
    return f"It would take {show_number(math.ceil(wanted))} screws: run the strut over more wall studs, or choose a stronger fixing."
