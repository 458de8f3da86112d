"""Whether a wheelchair can turn in the room."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import islice
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.around import Thing
from tundish.layout.free_circle import Circle, gap_to, largest_circle
from tundish.layout.room import Room
from tundish.layout.walls import Point
from tundish.measure import show_length
from tundish.rules.clear_floor import for_a_wheelchair
from tundish.rules.clear_rectangle import still_open
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.turning_floor import TURNS, in_the_way
from tundish.rules.ways import hung_otherwise, shorter_models


@rule(
    "space/turning",
    figures=TURNS,
    source="Approved Document M volume 2 and BS 8300, as a retailer's article quotes them; volume 1, 3.43e, as building control says",
    whole=True,
)
def turning(room: Room, book: Book) -> Iterator[Finding]:
    """A wheelchair turns in a circle of 1,500 on clear floor in a room that somebody uses from one.

    The largest circle within the walls, clear of pre-walls and boxings as tiled, of what hangs on them and of what stays. In a room with
    an accessible WC, a public one, it is clear of the swing of doors too. In a dwelling doors are shut, and a basin may come 200 over it,
    clear of its trap. A tray level with the floor is driven over; under a ceiling lower than a head nobody turns. A square of that side,
    as the guide to public ones draws it, holds such a circle. Of dwellings volume 1 asks it of category 3; category 2 has access zones
    instead. Building control has the last word.
    """
    if not room.closed or not for_a_wheelchair(room):
        return
    things, least = in_the_way(room, book), book.figure("access.turn")
    circle = _largest(room, things)
    has = _across(room, circle)
    state, words = judge(has, least, None, "look"), ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        words = f"{show_length(least.value - has.value)} short{_hemmed_in(room, things, circle)}."
        ways = tuple(_ways(room, things, least.value, book))
    spot = room.line.in_plan(circle.x, circle.y) if circle is not None else None
    yield Finding(
        "Turning space of a wheelchair", "Clearances", state, has, "Guidance", least.note, least, None, words, "", ways, spot=spot
    )


_NEAR: Final = 1.0


def _largest(room: Room, things: Sequence[Thing]) -> Circle | None:
    return largest_circle(tuple(room.line.on_wall(each) for each in room.corners), [each.shape for each in things])


def _across(room: Room, circle: Circle | None) -> Figure:
    """How wide the circle is, to a millimetre; where faces of pre-walls are still open by as much as they can move it."""
    has = number(round(2 * circle.radius) if circle is not None else 0, label="Largest circle on clear floor")
    for each in still_open(room):
        # At most: where another wall stands opposite, half of it.
        has = has + (2 * each).named("Finished face still open, twice at most")
    return has.named("Largest circle on clear floor")


def _hemmed_in(room: Room, things: Sequence[Thing], circle: Circle | None) -> str:
    """What the circle touches, in words."""
    if circle is None:
        return ": no floor is clear"
    walls = ((f"wall {side.letter}", tuple(map(room.line.on_wall, (side.start, side.end)))) for side in room.sides)
    round_it = (*walls, *((_called(each), each.shape) for each in things))
    names = [name for name, shape in round_it if gap_to(circle, shape) < _NEAR]
    names = list(dict.fromkeys(names))
    return f": it lies between {', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else f": it lies within {names[0]}"


def _called(thing: Thing) -> str:
    return f"the swing of the {thing.name}" if thing.what == "swing" else thing.called


def _ways(room: Room, things: Sequence[Thing], wanted: float, book: Book) -> Iterator[WayOut]:
    """What by itself would leave a circle wide enough: a door hung otherwise, a shorter model of something."""

    def serves(less: Thing, shape: tuple[Point, ...] = ()) -> bool:
        others = [each for each in things if each is not less]
        found = _largest(room, [*others, replace(less, shape=shape)] if shape else others)
        return found is not None and round(2 * found.radius) >= wanted

    for thing in things:
        if thing.what == "swing" and serves(thing):
            yield from hung_otherwise(thing, clear=serves(thing, thing.turned))
    for one in room.placed:
        thing = next(each for each in things if each.path == one.path)
        models = shorter_models(one, _NEAR, book)
        yield from islice((way for way, by in models if serves(thing, _drawn_back(thing, by))), 1)


def _drawn_back(thing: Thing, by: float) -> tuple[Point, ...]:
    left, right, far_right, far_left = thing.shape
    return left, right, (far_right[0], far_right[1] - by), (far_left[0], far_left[1] - by)
