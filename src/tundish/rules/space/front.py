"""Whether there is room to stand in front of an appliance."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.clear_floor import BEFORE, clear_before, wanted_before, what_is_before
from tundish.rules.rule import Finding, WayOut, judge, rule


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
            ways = tuple(_shorter(one, least.value - has.value, book))
        yield Finding("Clear floor in front", "Clearances", state, has, "Guidance", least.note, least, None, message, one.name, ways)


def _shorter(one: Placed, short: float, book: Book) -> Iterator[WayOut]:
    """The longest model of the same kind, as wide at most and on the same studs, that is short enough; none for an accessible WC."""
    if one.choice.kind == "accessible wc":
        return
    most = one.ware.size("projection").value - short
    alike = [
        item
        for item in book.items.values()
        if item.kind == one.ware.kind
        and item.sizes.keys() >= one.ware.sizes.keys()
        and item.sizes["projection"][0] <= most
        and item.sizes["width"][0] <= one.ware.size("width").value
        and item.sizes.get("stud_spacing") == one.ware.sizes.get("stud_spacing")
    ]
    if alike:
        best = max(alike, key=lambda item: (item.sizes["projection"][0], item.code))
        words = f"Choose {best.name} as {one.name}: {show_length(best.sizes['projection'][0])} long; heights by its own sheet."
        yield WayOut(words, f"{one.path}.ware", best.code)


_NO_WAYS: tuple[WayOut, ...] = ()
