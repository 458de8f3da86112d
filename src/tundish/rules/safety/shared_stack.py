"""A stack that others use."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Caution, rule


@rule("safety/shared-stack", source="common practice", whole=True, prints=("programme",))
def shared_stack(room: Room, book: Book) -> Iterator[Caution]:
    """Nobody else may use a shared stack while it is open.

    Said when the survey says that the stack is shared.
    """
    if room.plan.survey.stack.shared:
        yield Caution(
            "Shared stack",
            "Agree times with everybody above and below, in writing. Nobody flushes while the stack is open; cap it whenever you leave "
            "it. Hold the stack above before you cut it. The owner or managing agent may have to agree.",
        )
