"""What holds the rails of an accessible WC."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.decisions import key_of
from tundish.rules.rule import Decision, rule


@rule("closing/rails", source="common practice; a published answer on Approved Document M: a wall behind a WC takes 1.5 kN, others 0.85")
def rails_backed(room: Room, book: Book) -> Iterator[Decision]:
    """The walls that rails are fixed to are known to hold them.

    The pre-wall behind a drop-down rail and a back rest, the side wall behind the rail beside the WC.
    """
    for one in room.of_kind("wc"):
        found = [(name, words) for name, words in _RAILS if name in one.figures]
        if found:
            places = ", ".join(f"{words} at {show_length(one.figures[name].value - room.finished_floor.value)}" for name, words in found)
            yield Decision(
                key_of(room, "rails", one.key),
                f"Backing of rails seen, {one.name}",
                "A wall behind a WC takes 1.5 kN, others 0.85. Behind board it takes noggins; the side wall is not this pre-wall.",
                "By boarding",
                "Backing photographed",
                places,
                tuple(f"{one.path}.{name}" for name, _ in found),
            )


_RAILS = (("drop_rail", "drop-down rail"), ("back_rest", "back rest"), ("rail", "rail beside"))
