"""What waste pipe is clipped with."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.pipes import clips, served
from tundish.rules.rule import Need, rule

_WIDE: Final = 50


@rule(
    "drainage/waste-clips",
    figures=("drainage.waste_clips", "drainage.waste_clips_50", "drainage.waste_clips_up", "drainage.clips_least"),
    source="Plumbing Book 1, table 2.35, push-fit waste; lined: common practice",
)
def waste_clips(room: Room, book: Book) -> Iterator[Need]:
    """Waste pipe is held in lined clips at most half a metre apart, twice at least; 50 pipe 600 apart.

    Where it goes straight down at its end, at most 1.2 m apart there.
    """
    up, least = book.figure("drainage.waste_clips_up"), book.figure("drainage.clips_least")
    for run in room.pipes_of("waste"):
        name = served(room, run).name
        apart = book.figure("drainage.waste_clips_50" if run.size >= _WIDE else "drainage.waste_clips")
        amount = clips(run.run, apart, least, f"Clips, waste of {name}")
        if run.drop is not None:
            amount = (amount + clips(run.drop, up, least - least, "Clips down the drop")).named(amount.label)
        yield Need(amount, "first fix", f"waste of {name}", role=f"waste clip {run.size}")
