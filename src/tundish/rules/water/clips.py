"""What copper is clipped with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, number, total
from tundish.layout.room import Room
from tundish.rules.amounts import whole_spaces
from tundish.rules.pipes import served
from tundish.rules.rule import Need, rule


@rule(
    "water/clips",
    figures=("water.clips_along", "water.clips_up"),
    source="from memory: EN 806-4 and BS 8558; the same is published for 12 copper",
)
def water_clips(room: Room, book: Book) -> Iterator[Need]:
    """Copper is held in lined clips at most 1.2 m apart along and 1.8 m up, one at least for each piece."""
    along, up = book.figure("water.clips_along"), book.figure("water.clips_up")
    for run in room.pipes_of("hot", "cold"):
        why = f"{run.kind} to {served(room, run).name}"
        parts = [_clips(length, up if length is run.rise or length is run.onto else along) for length in run.lengths]
        if parts:
            yield Need(total(parts, f"Clips, {why}"), "first fix", why, role=f"pipe clip {run.size}")


def _clips(length: Figure, apart: Figure) -> Figure:
    return (whole_spaces(length, apart, "Lengths between clips") * number(1, "each", "clip for each")).named(length.label)
