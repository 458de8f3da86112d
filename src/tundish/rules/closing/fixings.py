"""What the frames are fixed with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.decisions import key_of
from tundish.rules.grounds import into, into_floor, on_joists, walls_of
from tundish.rules.rule import Decision, rule
from tundish.survey.wall import SOLID_WALLS


@rule("closing/fixings", source="common practice; makers' sheets of the fixings")
def fixings_chosen(room: Room, book: Book) -> Iterator[Decision]:
    """The fixings into wall and floor are chosen for what wall and floor are found to be.

    Made wherever there is a frame.
    """
    if room.framed:
        floor, walls = room.plan.survey.floor.kind, walls_of(room)
        wall = " and ".join(dict.fromkeys(each.construction for each, _ in walls))
        fixing = ", ".join(dict.fromkeys(book.role(into(each)).name for each, _ in walls))
        places = [f"{at}.{name}" for each, at in walls if each.construction not in SOLID_WALLS for name in ("stud_centres", "first_stud")]
        places += [f"{room.path}.survey.floor.joist_centres"] if on_joists(room) else []
        noggins = ", noggins under the feet" if on_joists(room) else ""
        yield Decision(
            key_of(room, "fixings"),
            "Wall and floor fixings chosen",
            f"{wall.capitalize()} wall, {floor}{noggins}.",
            "By boarding",
            "Wall type, fixing, load",
            f"{wall}: {fixing}; {floor}: {book.role(into_floor(room)).name}",
            tuple(places),
        )
