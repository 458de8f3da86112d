"""Whether the feet of a self-standing pre-wall hold it when something hangs on it."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, number
from tundish.layout.room import Room
from tundish.rules.amounts import bare
from tundish.rules.grounds import into_floor_heavy, on_joists
from tundish.rules.pulls import declared, on_each, reach
from tundish.rules.rule import Finding, rule
from tundish.rules.screws import grips


@rule(
    "loads/overturning",
    figures=(
        "loads.wc",
        "loads.bidet",
        "loads.basin",
        "loads.urinal",
        "fixings.floor_board",
        "fixings.timber_density",
        "fixings.kmod",
        "fixings.gamma_m",
    ),
    source="moments about the front of the feet; test loads of EN 997 and its like, from memory, and a frame maker's page; wood screws by "
    "EN 1995-1-1, 8.7.2, or as their maker says where that is less",
)
def overturning(room: Room, book: Book) -> Iterator[Finding]:
    """The feet of a self-standing pre-wall hold each frame under its appliance's test load.

    The load at the front edge by its reach from the frame, over the depth of the foot, shared by the back half of the fixings of the
    frame's feet. Its own weight is not counted. A check for planning.
    """
    if not room.self_standing:
        return
    foot, fixing = book.role("floor foot"), book.role(into_floor_heavy(room))
    tied = f"{fixing.name} does not hold this: tie the pre-wall to the wall, or use deeper feet."
    for one in room.framed:
        moment = (book.figure(f"loads.{one.kind}") * reach(room, one)).named("Overturning moment")
        back = (bare(one.frame.size("feet")) * bare(foot.size("fixings")) * number(0.5, "", "Back half")).named("Fixings at the back")
        has = (moment / foot.size("depth").named("Depth of foot") / back).named(f"Pull on each floor fixing of {one.name}")
        yield on_each("floor fixing", has, (fixing, _holds(room, book, fixing, back)), lambda _: tied, one.name)


def _holds(room: Room, book: Book, fixing: Item, back: Figure) -> Figure | None:
    """What each of the fixings at the back may be pulled with: past the boards into timber, else as its maker declares."""
    return grips(book, fixing, book.figure("fixings.floor_board"), back.value) if on_joists(room) else declared(fixing)[1]
