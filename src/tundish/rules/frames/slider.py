"""Whether each frame's studs can be slid to the height the appliance asks for."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, Known
from tundish.layout.makers import size
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("frames/slider", source="maker's sheet of the frame")
def slider(room: Room, book: Book) -> Iterator[Finding]:
    """The studs come where the frame's slider can hold them.

    It slides below the frame's mark, from where the sheet has the studs at their highest above the finished floor to their lowest.
    """
    for one in room.framed:
        has = one.figures["slider"]
        mark = size(one.frame, "mark_at", "Frame's mark, finished floor")
        least = (mark - size(one.frame, "studs_high", "Studs at their highest")).named("Slider at its highest")
        most = (mark - size(one.frame, "studs_low", "Studs at their lowest")).named("Slider at its lowest")
        state = judge(has, least, most)
        message = ""
        ways: tuple[WayOut, ...] = ()
        if state != "passes":
            up = has.value - most.value if has.value > most.value else has.value - least.value
            way = _way(room, one, up)
            message, ways = f"{way.words}, or choose another frame.", (way,)
        yield Finding("Stud slider", "Clearances", state, has, "Maker", one.frame.sheet, least, most, message, one.name, ways)


def _way(room: Room, one: Placed, up: float) -> WayOut:
    """So much up, or down below nought: at the nearest figure above the slider that was typed over, else at the top of the ware."""
    typed = next((each for each in _above(one) if each.known is Known.TYPED and ".design.typed." in each.path), None)
    if typed is not None:
        to = typed.value - up if typed is one.figures["slider"] else typed.value + up
        return WayOut(f"Type {show_length(to)} for what was typed as {show_length(typed.value)}", typed.path, to)
    top = one.figures["top"].value - room.finished_floor.value + up
    words = f"{'Raise' if up > 0 else 'Lower'} the top by {show_length(abs(up))}, to {show_length(top)}"
    return WayOut(f"{words}: studs, outlet and every hole in the tile move with it", f"{one.path}.top", top)


def _above(one: Placed) -> tuple[Figure, ...]:
    return tuple(one.figures[name] for name in ("slider", "studs", "top"))
