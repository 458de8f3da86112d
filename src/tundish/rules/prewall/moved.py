"""What becomes of a start or a length that another pre-wall in the corner leaves no room for."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.field import read
from tundish.figure import Figure
from tundish.layout.footprints import stopped
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, rule

_SAME = 0.5


@rule("prewall/moved", source="geometry: two frames cannot stand in one corner")
def moved(room: Room, book: Book) -> Iterator[Finding]:
    """A pre-wall that another one in its corner leaves less room than was put in is worked out in the room that there is.

    Said, so that nobody sets it out by what was put in.
    """
    if room.corner is not None:
        return
    for name, has, words in (("from_left", room.start, "Start of the pre-wall"), ("run", room.run, "Length of the pre-wall")):
        wanted = read(room.prewall, name, f"{room.prewall_path}.{name}") if getattr(room.prewall, name) is not None else None
        end = 0 if name == "from_left" else 1
        joined = room.joins[end] is not None or stopped(room)[end] is not None
        if wanted is not None and not joined and _other(name, wanted, has):
            put_in, found = show_length(wanted.value), show_length(has.value)
            message = f"{put_in} was put in; it is worked out at {found}, for the corner or the pre-wall in it."
            yield Finding(words, "Clearances", "look", has, "Own rule", "measured", message=message)


def _other(name: str, wanted: Figure, has: Figure) -> bool:
    """Whether it moved: to the right of what was put in, or shorter than that."""
    return has.value > wanted.value + _SAME if name == "from_left" else has.value < wanted.value - _SAME
