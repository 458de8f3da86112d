"""Rails and back rest of an accessible WC."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.rule import Need, rule

_RAILS = (("rail", "beside"), ("drop_rail", "on the open side of"), ("back_rest", "behind"))


@rule("frames/rails", source="common practice; Approved Document M volume 2, diagrams 18 and 19, from memory")
def rails(room: Room, book: Book) -> Iterator[Need]:
    """An accessible WC has a rail on the wall beside it, a drop-down rail on its open side and a back rest.

    Those that are chosen, with a fixing set each.
    """
    for one in room.of_kind("wc"):
        for name, where in _RAILS:
            code: str = getattr(one.choice, name)
            if name in one.figures:
                yield Need(each(1, one.name), "second fix", f"{where} {one.name}", item=code)
                yield Need(each(1, one.name), "second fix", f"{where} {one.name}", role="fixing set rail")
