"""Whether a basin in the room of an accessible WC is at a height and of a depth that serve from its seat, or from a wheelchair."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, without
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule

_RINSE = ("access.rinse_least", "access.rinse_most")
_APART = ("people.basin_wheelchair_user_least", "people.basin_wheelchair_user_most")


@rule(
    "space/accessible-basin",
    figures=(*_RINSE, "access.rinse_out", *_APART),
    source="BS 8300 and Approved Document M volume 2, as a retailer's article quotes them",
)
def accessible_basin(room: Room, book: Book) -> Iterator[Finding]:
    """In the room of an accessible WC the rim of a basin is at 720 to 740, reached from the seat, or at 780 to 800, apart from it.

    One to rinse fingers in from the seat comes out 250 at most. Which of the two is meant is told by the nearer height.
    """
    if not any(each.kind == "accessible wc" for each in room.plan.design.appliances):
        return
    rinse, apart = ((book.figure(least), book.figure(most)) for least, most in (_RINSE, _APART))
    for one in room.of_kind("basin"):
        has = without(one.figures["top"], room.finished_floor).named("Rim above finished floor")
        from_seat = has.value < (rinse[1].value + apart[0].value) / 2
        yield _rim(one, has, rinse if from_seat else apart)
        if from_seat:
            yield _out(one, book)


def _rim(one: Placed, has: Figure, limits: tuple[Figure, Figure]) -> Finding:
    least, most = limits
    state, words = judge(has, least, most, "look"), ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        to = least.value if has.value < least.value else most.value
        words = f"Set the top of {one.name} to {show_length(to)}: bolts, waste and supplies move with it."
        ways = (WayOut(words, f"{one.path}.top", to),)
    return Finding("Rim of the basin", "Clearances", state, has, "Guidance", least.note, least, most, words, one.name, ways)


def _out(one: Placed, book: Book) -> Finding:
    has, most = one.ware.size("projection").named("Finished face to front of basin"), book.figure("access.rinse_out")
    state = judge(has, None, most, "look")
    over = show_length(math.ceil(has.value - most.value))
    words = "" if state == "passes" else f"{over} too far out to turn a wheelchair beside it: choose a shallower one."
    return Finding("Finger-rinse basin out from the wall", "Clearances", state, has, "Guidance", most.note, None, most, words, one.name)
