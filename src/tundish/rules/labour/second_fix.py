"""Hours for hanging and connecting."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import total
from tundish.layout.design import KINDS
from tundish.rules.amounts import several
from tundish.rules.rule import LABOUR, Asked, Need, rule

_NAMES = {"wc": "WCs", "basin": "Basins", "bidet": "Bidets", "urinal": "Urinals"}


@rule(
    "labour/second-fix",
    figures=("labour.wc", "labour.basin", "labour.bidet", "labour.urinal", "labour.seal"),
    source="basin and bidet: a published table of man-hour norms; the rest invented for the demonstration: put in your own",
    reads="needs",
)
def second_fix(asked: Asked, book: Book) -> Iterator[Need]:
    """Hours for second fix, from the trader's own norms.

    Each appliance hung and connected, and sealing once for each room.
    """
    whole_room = [book.figure("labour.seal")] if asked.room.first else []
    counts = [(len(asked.room.of_kind(kind)), kind) for kind in KINDS]
    hours = [(several(count, _NAMES[kind]) * book.figure(f"labour.{kind}")).named(_NAMES[kind]) for count, kind in counts if count]
    yield Need(total([*hours, *whole_room], "Second fix", "h"), "second fix", "sanitaryware and sealing", role=LABOUR)
