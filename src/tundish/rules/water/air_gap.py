"""Whether what fills a cistern stays clear of the water in it."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Finding, judge, rule


@rule(
    "water/air-gap",
    figures=("water.air_gap",),
    source="the water regulator's advisory body: type AUK1, twice the bore of the supply; Water Fittings Regulations 1999, schedule 2",
)
def air_gap(room: Room, book: Book) -> Iterator[Finding]:
    """A concealed cistern keeps an air gap of 30 between its supply and its overflow level.

    As its frame's sheet gives it. The pan is of the worst category of fluid, and the gap is what keeps it out of the mains.
    """
    least = book.figure("water.air_gap")
    for one in room.of_kind("wc"):
        if not one.frame.has("air_gap"):
            words = f"The sheet of {one.frame.name} gives no air gap: look for an approved fitting's mark, and enter it in the catalogue."
            yield Finding("Air gap in the cistern", "Water", "cannot tell", None, "Regulation", least.note, least, None, words, one.name)
            continue
        has = one.frame.size("air_gap")
        state = judge(has, least, None)
        message = "" if state == "passes" else "Too small a gap: choose a frame whose cistern is approved, or ask the water company."
        yield Finding("Air gap in the cistern", "Water", state, has, "Regulation", least.note, least, None, message, one.name)
