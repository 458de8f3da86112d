"""What soil pipe is clipped with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.pipes import clips, served
from tundish.rules.rule import Need, rule


@rule(
    "drainage/soil-clips",
    figures=("drainage.soil_clips", "drainage.clips_least"),
    source="from memory; a project specification gives 900",
)
def soil_clips(room: Room, book: Book) -> Iterator[Need]:
    """Soil pipe is held in lined clips at most a metre apart, twice at least.

    Where it goes straight down at its end, as far apart there.
    """
    apart, least = book.figure("drainage.soil_clips"), book.figure("drainage.clips_least")
    for run in room.pipes_of("soil"):
        name = served(room, run).name
        amount = clips(run.run, apart, least, f"Clips, branch of {name}")
        if run.drop is not None:
            amount = (amount + clips(run.drop, apart, least - least, "Clips down the drop")).named(amount.label)
        yield Need(amount, "first fix", f"branch of {name}", role=f"soil clip {run.size}")
