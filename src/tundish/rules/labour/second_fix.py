"""Hours for hanging and connecting."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import total
from tundish.layout.appliances.kinds import KINDS
from tundish.rules.amounts import several
from tundish.rules.rule import LABOUR, Asked, Need, rule


@rule(
    "labour/second-fix",
    figures=(
        "labour.wc",
        "labour.basin",
        "labour.bidet",
        "labour.urinal",
        "labour.accessible_wc",
        "labour.shower_valve",
        "labour.wall_spout",
        "labour.seal",
    ),
    source="basin and bidet: a published table of man-hour norms; the rest invented for the demonstration: put in your own",
    reads="needs",
)
def second_fix(asked: Asked, book: Book) -> Iterator[Need]:
    """Hours for second fix, from the trader's own norms.

    Each appliance hung and connected, and sealing once for each room.
    """
    whole_room = [book.figure("labour.seal")] if asked.room.first else []
    counted = Counter(one.choice.kind for one in asked.room.placed)
    hours = [
        (several(counted[kind.key], kind.many) * book.figure(f"labour.{kind.figure}")).named(kind.many)
        for kind in KINDS.values()
        if counted[kind.key]
    ]
    yield Need(total([*hours, *whole_room], "Second fix", "h"), "second fix", "sanitaryware and sealing", role=LABOUR)
