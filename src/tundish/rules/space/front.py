"""Whether there is room to stand in front of an appliance."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.clear_floor import BEFORE, clear_before, wanted_before, what_is_before
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.ways import shorter_models


@rule(
    "space/front",
    figures=BEFORE,
    source="BS 6465-2, from memory; wheelchairs: Centre for Accessible Environments, Approved Document M from memory",
)
def front(room: Room, book: Book) -> Iterator[Finding]:
    """There is clear floor in front of every appliance, as much as its kind asks for.

    From its front edge to the wall opposite, or to what stands before it: a bath, a cupboard or a radiator that stays, another pre-wall
    of the room and what hangs on it. More is asked for where somebody uses the room from a wheelchair. Nothing is said of a spout, or
    where the walls as measured make no room.
    """
    if not room.closed:
        return
    head_room = book.figure("space.headroom").value
    for one in room.placed:
        least = wanted_before(room, one, book)
        if least is None:
            continue
        has = clear_before(room, one, head_room)
        state = judge(has, least, None, "look")
        message, ways = "", _NO_WAYS
        if state != "passes":
            short, what = show_length(least.value - has.value), what_is_before(room, one, head_room)
            message = f"{short} short, up to {what}: a shorter model or a shallower pre-wall gives room."
            ways = tuple(way for way, _ in islice(shorter_models(one, least.value - has.value, book), 1))
        yield Finding("Clear floor in front", "Clearances", state, has, "Guidance", least.note, least, None, message, one.name, ways)


_NO_WAYS: tuple[WayOut, ...] = ()
