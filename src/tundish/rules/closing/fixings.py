"""What the frames are fixed with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.decisions import key_of
from tundish.rules.grounds import into_floor, into_wall, on_joists, on_solid_wall
from tundish.rules.rule import Decision, rule


@rule("closing/fixings", source="common practice; makers' sheets of the fixings")
def fixings_chosen(room: Room, book: Book) -> Iterator[Decision]:
    """The fixings into wall and floor are chosen for what wall and floor are found to be.

    Made wherever there is a frame.
    """
    if room.framed:
        wall, floor = room.behind.construction, room.plan.survey.floor.kind
        places = [] if on_solid_wall(room) else [f"{room.behind_path}.stud_centres", f"{room.behind_path}.first_stud"]
        places += [f"{room.path}.survey.floor.joist_centres"] if on_joists(room) else []
        noggins = ", noggins under the feet" if on_joists(room) else ""
        yield Decision(
            key_of(room, "fixings"),
            "Wall and floor fixings chosen",
            f"{wall.capitalize()} wall, {floor}{noggins}.",
            "By boarding",
            "Wall type, fixing, load",
            f"{wall}: {book.role(into_wall(room)).name}; {floor}: {book.role(into_floor(room)).name}",
            tuple(places),
        )
