"""Water off and pipes empty before they are cut."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Caution, rule


@rule("safety/isolation", source="common practice", whole=True, prints=("programme",))
def isolation(room: Room, book: Book) -> Iterator[Caution]:
    """Water is turned off and drained down before pipe is cut.

    Said where there is pipework to do.
    """
    if room.plan.design.appliances:
        stop = room.plan.survey.water.stop_valve.strip()
        yield Caution(
            "Isolation and drain-down",
            f"{_where(stop)} Try that it holds before you cut, drain down, and open a tap below. Turn off what heats water first. Hot pipe "
            "and stored hot water scald. Unvented and gas appliances are for those licensed to work on them.",
        )


def _where(stop: str) -> str:
    return f"Stop valve: {stop.rstrip('.')}." if stop else "Find the stop valve first."
