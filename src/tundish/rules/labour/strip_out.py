"""Hours before anything is put in."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.field import must_read
from tundish.figure import total
from tundish.rules.rule import LABOUR, Asked, Need, rule


@rule(
    "labour/strip-out",
    figures=("labour.protect", "labour.strip_appliance", "labour.tiles_off"),
    source="invented for the demonstration: put in your own",
    reads="needs",
    whole=True,
)
def strip_out(asked: Asked, book: Book) -> Iterator[Need]:
    """Hours for strip out, from the trader's own norms.

    Covering up for each room, each appliance taken out, each square metre of tiles taken off.
    """
    out, path = asked.room.plan.survey.existing, f"{asked.room.path}.survey.existing"
    hours = [
        book.figure("labour.protect"),
        (must_read(out, "appliances", path) * book.figure("labour.strip_appliance")).named("Appliances taken out"),
        (must_read(out, "tiles_off_m2", path) * book.figure("labour.tiles_off")).named("Tiles taken off"),
    ]
    amount = total([one for one in hours if one.high > 0], "Strip out", "h")
    yield Need(amount, "strip out", "strip out and make safe", role=LABOUR)
