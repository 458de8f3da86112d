"""What is hired by the day."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import round_up, total
from tundish.layout.room import Room
from tundish.rules.faces import tiled_area
from tundish.rules.rule import Need, rule


@rule("site/hire", figures=("site.saw_from_m2", "site.saw_m2_a_day"), source="common practice")
def hire(room: Room, book: Book) -> Iterator[Need]:
    """A wet saw is hired for the days of tiling where there is much to tile.

    Walls of the pre-wall and the floor together, from so many square metres on, at so many a day; a day that is begun is hired whole.
    """
    tiled = [tiled_area(room), *((room.floor.area,) if room.floor is not None and room.first else ())]
    area = total(tiled, "To tile")
    if area.value >= book.figure("site.saw_from_m2").value:
        days = (area / book.figure("site.saw_m2_a_day")).named("Days of tiling")
        yield Need(round_up(days, 1.0, "Wet saw"), "boarding", "cutting tiles", role="tile saw")
