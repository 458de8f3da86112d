"""Whether there is room to stand in front of an appliance."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.clear_floor import clear_before
from tundish.rules.rule import Finding, judge, rule


@rule("space/front", figures=("space.front",), source="BS 6465-2, from memory")
def front(room: Room, book: Book) -> Iterator[Finding]:
    """There is clear floor in front of every appliance.

    From its front edge to the wall opposite; a door, a bath or a radiator there is not reckoned with, and nothing where the walls as
    measured make no room.
    """
    if not room.closed:
        return
    least = book.figure("space.front")
    for one in room.framed:
        has = clear_before(room, one)
        state = judge(has, least, None, "look")
        message = ""
        if state != "passes":
            message = f"{show_length(least.value - has.value)} short: a shorter model or a shallower pre-wall gives room."
        yield Finding("Clear floor in front", "Clearances", state, has, "Guidance", least.note, least, None, message, one.name)
