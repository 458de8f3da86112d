"""Whether the feet of a self-standing pre-wall hold it when something hangs on it."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.room import Room
from tundish.rules.amounts import bare
from tundish.rules.grounds import into_floor_heavy
from tundish.rules.pulls import on_each, reach
from tundish.rules.rule import Finding, rule


@rule(
    "loads/overturning",
    figures=("loads.wc", "loads.bidet", "loads.basin", "loads.urinal"),
    source="moments about the front of the feet; test loads of EN 997 and its like, from memory, and a frame maker's page",
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
        yield on_each("floor fixing", has, fixing, lambda _: tied, one.name)
