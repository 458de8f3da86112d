"""Whether what holds each frame to the wall stands its pull."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure
from tundish.layout.room import Member, Placed, Room
from tundish.measure import show_number
from tundish.rules.grounds import into_wall, on_solid_wall
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.pulls import declared, held_by, holder, on_each, on_rod, share_words
from tundish.rules.rule import Finding, rule
from tundish.rules.strut_screws import COUNTED, HOLDING, grip_of, hardest


@rule(
    "loads/wall-pull",
    figures=(
        "loads.wc",
        "loads.bidet",
        "loads.basin",
        "loads.urinal",
        "loads.seat_middle",
        *COUNTED,
        *HOLDING,
    ),
    source="moments about the front of the feet; test loads of EN 997 and its like, from memory, and a frame maker's page; wood screws by "
    "EN 1995-1-1, 8.7.2",
)
def wall_pull(room: Room, book: Book) -> Iterator[Finding]:
    """The wall holds the head of each frame under its appliance's test load.

    The load at the front edge, by its reach from the frame, over the height of the brackets; shared by the tie rods on a solid wall,
    and by the screws of the wall strut on a stud wall, where those near one frame may be pulled harder than all together. The feet carry
    the weight. Across a corner each tie rod holds square to its own wall, and so is pulled harder than by half. A screw into timber holds
    by its thread in the stud, behind strut and boards; the test load is taken as the design load, and as one that does not last. Anchors
    and screws in metal hold what their makers declare. A check for planning.
    """
    for strut in marked(room, WALL_STRUT):
        held = held_by(room, strut)
        if held:
            has, screws = hardest(room, book, strut, held)
            fixing = book.role(into_wall(room, strut.x))
            grip = fixing, grip_of(room, book, strut, screws.value)
            yield on_each("strut screw", has, grip, _more_screws(strut, screws), holder(room, strut, held), share_words(room, book, held))
    for one in room.tied:
        for fixing in _anchors(room, book, one):
            told = share_words(room, book, [one])
            yield on_each("tie rod", on_rod(room, book, one), declared(fixing), _stronger(fixing), one.name, told)


def _anchors(room: Room, book: Book, one: Placed) -> tuple[Item, ...]:
    """What holds its tie rods on a solid wall; of two sorts, the one that holds less."""
    places = [one.figures[f"bracket_{side}"].value for side in ("left", "right")]
    found = [book.role(into_wall(room, x)) for x in places if on_solid_wall(room, x)]
    return tuple(sorted(found, key=lambda each: each.sizes["pull_kn"][0] if each.has("pull_kn") else 0.0)[:1])


def _stronger(fixing: Item) -> Callable[[float], str]:
    return lambda _: f"{fixing.name} does not hold this. Choose a stronger anchor for this wall, or add wall ties."


def _more_screws(strut: Member, screws: Figure) -> Callable[[float], str]:
    def words(times: float) -> str:
        wanted = show_number(math.ceil(round(screws.value * times, 6)))
        return (
            f"It would take {wanted} screws: run {strut.mark} over more wall studs, fix it to noggins or ply, or choose a stronger fixing."
        )

    return words
