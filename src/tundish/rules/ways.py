"""Ways out that several checks offer."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.around import Thing
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.rule import WayOut


def set_depth(room: Room, to: float) -> WayOut:
    """The pre-wall at another depth, mm."""
    words = f"Set the pre-wall {show_length(to)} deep: shelf, returns, ties and tie rods change with it."
    return WayOut(words, f"{room.prewall_path}.depth", to)


def set_centre(one: Placed, to: float) -> WayOut:
    """An appliance elsewhere along the wall, mm."""
    words = f"Move the centre of {one.name} to {show_length(to)}: its pipes and the uprights beside it move with it."
    return WayOut(words, f"{one.path}.centre", to)


def hung_otherwise(door: Thing, *, clear: bool) -> Iterator[WayOut]:
    """A door hinged on its other side, where its leaf is `clear` there; outwards, which meets nothing in the room."""
    if clear:
        other = "right" if door.hinge == "left" else "left"
        words = f"Hang the {door.name} on its {other}: its leaf is clear there, and its light switch may want moving."
        yield WayOut(words, f"{door.path}.hinge", other)
    words = f"Let the {door.name} open out of the room: see that nothing is in its way there."
    yield WayOut(words, f"{door.path}.swing", "out of the room")


def shorter_models(one: Placed, short: float, book: Book) -> Iterator[tuple[WayOut, float]]:
    """Models of the same kind, as wide at most and on the same studs, that are so much shorter, and by how much; the longest first.

    None for an accessible WC, whose length is laid down.
    """
    if one.choice.kind == "accessible wc":
        return
    own = one.ware.size("projection").value
    alike = [
        item
        for item in book.items.values()
        if item.kind == one.ware.kind
        and item.sizes.keys() >= one.ware.sizes.keys()
        and item.sizes["projection"][0] <= own - short
        and item.sizes["width"][0] <= one.ware.size("width").value
        and item.sizes.get("stud_spacing") == one.ware.sizes.get("stud_spacing")
    ]
    for item in sorted(alike, key=lambda each: (each.sizes["projection"][0], each.code), reverse=True):
        long = item.sizes["projection"][0]
        words = f"Choose {item.name} as {one.name}: {show_length(long)} long; heights by its own sheet."
        yield WayOut(words, f"{one.path}.ware", item.code), own - long
