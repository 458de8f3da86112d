"""Hours for frames and pre-wall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import converted, total
from tundish.rules.amounts import several
from tundish.rules.rule import LABOUR, Asked, Need, rule


@rule(
    "labour/frames",
    figures=("labour.frame", "labour.bar", "labour.prewall_m"),
    source="invented for the demonstration: put in your own",
    reads="needs",
)
def frames(asked: Asked, book: Book) -> Iterator[Need]:
    """Hours for frames and pre-wall, from the trader's own norms.

    Each frame and support bar set and fixed, each metre of strut or studwork cut and fixed.
    """
    room, hours = asked.room, []
    if room.framed:
        hours.append((several(len(room.framed), "Frames") * book.figure("labour.frame")).named("Frames"))
    bars = len(room.placed) - len(room.framed)
    if bars:
        hours.append((several(bars, "Support bars") * book.figure("labour.bar")).named("Support bars"))
    lengths = [one.amount for one in asked.needs if one.item == room.strut.code or one.role == "timber stud"]
    metres = converted(total(lengths, "Strut and studwork"), "m", "Strut and studwork")
    hours.append((metres * book.figure("labour.prewall_m")).named("Strut and studwork"))
    yield Need(total(hours, "Frames and pre-wall"), "frames", "frames and pre-wall", role=LABOUR)
