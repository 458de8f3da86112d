"""Old materials that may hold asbestos."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.field import must_read
from tundish.layout.room import Room
from tundish.rules.rule import Caution, rule


@rule(
    "safety/asbestos",
    source="Control of Asbestos Regulations 2012, regulation 5, as explained by a survey guide",
    whole=True,
    prints=("programme",),
)
def asbestos(room: Room, book: Book) -> Iterator[Caution]:
    """A house from before 2000 may hold asbestos where it is opened or drilled.

    Said when the house is not known to be from 2000 or later, and something is taken out or a frame is fixed.
    """
    existing, where = room.plan.survey.existing, f"{room.path}.survey.existing"
    out = any(must_read(existing, name, where).high > 0 for name in ("appliances", "tiles_off_m2", "other_waste_m3"))
    if existing.built != "2000 or later" and (out or room.plan.design.appliances):
        yield Caution(
            "Asbestos",
            "Boards, boxings, tile adhesive, floor tiles and old flue pipe from before 2000 may hold it. Presume that it is there, or have "
            "it surveyed and sampled, before anything is broken out or drilled. If you find it, stop and call a licensed firm.",
        )
