"""Whether what holds each frame to the wall stands its pull."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, total
from tundish.layout.room import Member, Placed, Room
from tundish.measure import show_number
from tundish.rules.amounts import bare, several
from tundish.rules.grounds import into_wall, lining, on_solid_wall, on_timber_studs
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.pulls import declared, held_by, holder, on_each, on_rod, pull_on, share_words
from tundish.rules.rule import Finding, rule
from tundish.rules.screws import grips


@rule(
    "loads/wall-pull",
    figures=(
        "loads.wc",
        "loads.bidet",
        "loads.basin",
        "loads.urinal",
        "loads.seat_middle",
        "fixings.each_wall_stud",
        "fixings.timber_density",
        "fixings.kmod",
        "fixings.gamma_m",
        "fixings.lining",
        "fixings.lath",
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
            has, screws = _on_strut(room, book, strut, held)
            fixing = book.role(into_wall(room, strut.x))
            grip = fixing, _grip(room, book, strut, screws)
            yield on_each("strut screw", has, grip, _more_screws(strut, screws), holder(room, strut, held), share_words(room, book, held))
    for one in room.tied:
        for fixing in _anchors(room, book, one):
            told = share_words(room, book, [one])
            yield on_each("tie rod", on_rod(room, book, one), declared(fixing), _stronger(fixing), one.name, told)


def _grip(room: Room, book: Book, strut: Member, screws: Figure) -> Figure | None:
    """What each strut screw may be pulled with: into timber past strut and lining, else as the maker declares."""
    fixing = book.role(into_wall(room, strut.x))
    if not on_timber_studs(room, strut.x):
        return declared(fixing)[1]
    passes = room.strut.size("thickness") + lining(room, book, strut.x)
    return grips(book, fixing, passes.named("Strut and the boards on the wall"), screws.value)


def _anchors(room: Room, book: Book, one: Placed) -> tuple[Item, ...]:
    """What holds its tie rods on a solid wall; of two sorts, the one that holds less."""
    places = [one.figures[f"bracket_{side}"].value for side in ("left", "right")]
    found = [book.role(into_wall(room, x)) for x in places if on_solid_wall(room, x)]
    return tuple(sorted(found, key=lambda each: each.sizes["pull_kn"][0] if each.has("pull_kn") else 0.0)[:1])


def _on_strut(room: Room, book: Book, strut: Member, held: list[Placed]) -> tuple[Figure, Figure]:
    """The pull on the hardest pulled screws, and how many these are: all of the strut together, or those near one frame."""
    apiece = bare(book.figure("fixings.each_wall_stud"))
    pulls = [pull_on(room, book, one, strut) for one in held]
    shared = [(total(pulls, "Pull on the strut"), len(strut.bears))]
    shared += [(force, _studs_at(strut, one)) for force, one in zip(pulls, held, strict=True)]
    found = [(force, (several(crossed, "Wall studs crossed") * apiece).named("Screws of the wall strut")) for force, crossed in shared]
    force, screws = max(found, key=lambda each: each[0].value / each[1].value)
    return (force / screws).named(f"Pull on each strut screw of {', '.join(one.name for one in held)}"), screws


def _studs_at(strut: Member, one: Placed) -> int:
    """The wall studs from the one left of a frame's brackets to the one right of them."""
    places, at = strut.bears, [place for key, place in strut.pulled if key == one.key]
    first = max((each for each in places if each <= min(at)), default=places[0])
    last = min((each for each in places if each >= max(at)), default=places[-1])
    return sum(first <= each <= last for each in places)


def _stronger(fixing: Item) -> Callable[[float], str]:
    return lambda _: f"{fixing.name} does not hold this. Choose a stronger anchor for this wall, or add wall ties."


def _more_screws(strut: Member, screws: Figure) -> Callable[[float], str]:
    def words(times: float) -> str:
        wanted = show_number(math.ceil(round(screws.value * times, 6)))
        return f"It would take {wanted} screws: run {strut.mark} over more wall studs, or choose a stronger fixing."

    return words
