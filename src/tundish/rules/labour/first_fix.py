"""Hours for pipes in the void."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import total
from tundish.rules.amounts import several
from tundish.rules.rule import LABOUR, Asked, Need, rule

_RUNS = ((("soil",), "labour.soil", "WC branches"), (("waste",), "labour.waste", "Wastes"), (("hot", "cold"), "labour.feed", "Feeds"))


@rule(
    "labour/first-fix",
    figures=("labour.soil", "labour.waste", "labour.feed", "labour.test"),
    source="invented for the demonstration: put in your own",
    reads="needs",
)
def first_fix(asked: Asked, book: Book) -> Iterator[Need]:
    """Hours for first fix, from the trader's own norms.

    Each WC branch, each waste, each feed, and testing once for each room.
    """
    whole_room = [book.figure("labour.test")] if asked.room.first else []
    counts = [(len(asked.room.pipes_of(*kinds)), norm, label) for kinds, norm, label in _RUNS]
    hours = [(several(count, label) * book.figure(norm)).named(label) for count, norm, label in counts if count]
    yield Need(total([*hours, *whole_room], "First fix", "h"), "first fix", "pipes and tests", role=LABOUR)
