"""What is carried away."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.field import must_read
from tundish.figure import Figure, number, round_up, total
from tundish.layout.room import Room
from tundish.rules.rule import Need, rule


@rule(
    "site/waste",
    figures=("site.appliance_m3", "site.tiles_m3_m2", "site.offcuts_m3", "site.skip_from", "site.bag_m3"),
    source="common practice; carrying waste for others needs a licence",
    whole=True,
)
def rubbish(room: Room, book: Book) -> Iterator[Need]:
    """What comes out goes away in bags, or in a skip when there is much of it: the smallest that takes it.

    Appliances and tiles taken out, other waste as it lies in a heap, and offcuts. What no skip takes goes in as many of the largest.
    """
    volume = waste_volume(room, book)
    if volume.value > book.figure("site.skip_from").value:
        yield _skips(room, volume, book)
    else:
        bags = (volume / book.figure("site.bag_m3")).named("Bags, to the last handful")
        yield Need(round_up(bags, 1.0, "Bags"), "strip out", "what comes out", role="rubble bag")


def waste_volume(room: Room, book: Book) -> Figure:
    """What is carried away from a room, m³ as it lies in a heap."""
    out, path = room.plan.survey.existing, f"{room.path}.survey.existing"
    parts = [
        (must_read(out, "appliances", path) * book.figure("site.appliance_m3")).named("Appliances taken out"),
        (must_read(out, "tiles_off_m2", path) * book.figure("site.tiles_m3_m2")).named("Tiles taken off"),
        must_read(out, "other_waste_m3", path),
        book.figure("site.offcuts_m3"),
    ]
    return total(parts, "What comes out")


def _skips(room: Room, volume: Figure, book: Book) -> Need:
    label, why = f"Skip for {room.room_name}", "what comes out"
    sold = (each for each in book.of_kind("skip") if each.has("volume") and book.on_offer(each.code))
    sizes = sorted(sold, key=lambda each: each.bare("volume"))
    if not sizes:
        return Need(number(1, "visit", label), "strip out", why, role="skip")
    skip = next((each for each in sizes if each.bare("volume") >= volume.value), sizes[-1])
    loads = (volume / skip.size("volume") * number(1, "visit", "each of them")).named("Of a skip")
    return Need(round_up(loads, 1.0, label), "strip out", why, item=skip.code)
