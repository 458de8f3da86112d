"""Whether the WC of a dwelling that guests use has the room that is asked for it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.clear_floor import clear_before
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.sides import Side, moved_clear, nearer, nearest, sides_of

_SIDE: Final = "Middle of a visitable WC to the side"
_SOURCE: Final = "an access code of practice after Approved Document M"


@rule(
    "space/visitable",
    figures=("access.visitable_front", "access.visitable_centre", "space.headroom"),
    source=f"{_SOURCE}; volume 1 from memory",
)
def visitable(room: Room, book: Book) -> Iterator[Finding]:
    """A visitable WC of a dwelling has 750 of clear floor before it, 450 from its middle to each side wall, and a door that opens outwards.

    A boxing, another pre-wall and what stays beside it count as the wall does. Said of a WC that is marked so. Building control has the
    last word.
    """
    for one in room.of_kind("wc"):
        if one.choice.visitable:
            if room.closed:
                yield _before(room, one, book)
            yield _beside(one, sides_of(room, one, book.figure("space.headroom").value), book)
            yield from _doors(room, one)


def _before(room: Room, one: Placed, book: Book) -> Finding:
    has, least = clear_before(room, one, book.figure("space.headroom").value), book.figure("access.visitable_front")
    state = judge(has, least, None)
    message = "" if state == "passes" else f"{show_length(least.value - has.value)} short: a shorter pan gives room."
    return Finding("Clear before a visitable WC", "Clearances", state, has, "Regulation", least.note, least, None, message, one.name)


def _beside(one: Placed, sides: tuple[Side, Side], book: Book) -> Finding:
    has, least = nearer(sides, "Middle to the nearer side"), book.figure("access.visitable_centre")
    state, message = judge(has, least, None), ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        message = f"{show_length(least.value - has.value)} short: move {one.name} away from {nearest(sides)}."
        ways = moved_clear(one, sides, least.value)
    return Finding(_SIDE, "Clearances", state, has, "Regulation", least.note, least, None, message, one.name, ways)


def _doors(room: Room, one: Placed) -> Iterator[Finding]:
    for place, door in enumerate(room.plan.survey.openings):
        if door.kind == "door" and door.swing == "into the room":
            way = WayOut(
                "Hang the door to open outwards: frame, stop and handle change, and what is outside must be clear.",
                f"{room.path}.survey.openings.{place}.swing", "out of the room",
            )  # fmt: skip
            yield Finding(
                "Door of a visitable WC", "Clearances", "look", None, "Regulation", _SOURCE,
                message="It opens into the room: whoever falls against it cannot be reached.", place=one.name, ways_out=(way,),
            )  # fmt: skip
            return
