"""What waste pipe is clipped with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.pipes import clips, served
from tundish.rules.rule import Need, rule


@rule(
    "drainage/waste-clips",
    figures=("drainage.waste_clips", "drainage.clips_least"),
    source="Plumbing Book 1, table 2.35, for 32 and 40 push-fit waste",
)
def waste_clips(room: Room, book: Book) -> Iterator[Need]:
    """Waste pipe is clipped at most half a metre apart, twice at least."""
    apart, least = book.figure("drainage.waste_clips"), book.figure("drainage.clips_least")
    for run in room.pipes_of("waste"):
        name = served(room, run).name
        yield Need(clips(run.run, apart, least, f"Clips, waste of {name}"), "first fix", f"waste of {name}", role=f"waste clip {run.size}")
