"""Whether there is room to stand in front of an appliance."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.room import Placed, Room
from tundish.layout.walls import across
from tundish.measure import show_length
from tundish.rules.rule import Finding, judge, rule


@rule("space/front", figures=("space.front",), source="BS 6465-2, from memory")
def front(room: Room, book: Book) -> Iterator[Finding]:
    """There is clear floor in front of every appliance.

    From its front edge to the wall opposite; a door, a bath or a radiator there is not reckoned with, and nothing where the walls as
    measured make no room.
    """
    if not room.closed:
        return
    least, face = book.figure("space.front"), room.figures["finished_face"]
    for one in room.framed:
        has = (_deep(room, one) - face - one.ware.size("projection")).named(f"Clear floor before {one.name}")
        state = judge(has, least, None, "look")
        message = ""
        if state != "passes":
            message = f"{show_length(least.value - has.value)} short: a shorter model or a shallower pre-wall gives room."
        yield Finding("Clear floor in front", "Clearances", state, has, "Guidance", least.note, least, None, message, one.name)


def _deep(room: Room, one: Placed) -> Figure:
    """How deep the room is at an appliance: in a room of more corners, the least across its width."""
    if room.box and room.corner is None:
        return room.figures["room_depth"]
    half = one.ware.size("width").value / 2
    places = (one.centre.value - half, one.centre.value, one.centre.value + half)
    beyond = room.depth.value if room.corner else 0.0
    return number(round(min(across(room.sides, room.line, x, beyond) for x in places), 1), label=f"Wall to wall before {one.name}")
