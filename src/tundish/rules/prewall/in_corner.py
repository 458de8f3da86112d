"""Whether a pre-wall runs into one that stands across a corner of its wall, and why it is not joined to it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.field import must_read
from tundish.layout.corner import Across, InCorner, aslant
from tundish.layout.footprints import stopped
from tundish.layout.room import Room
from tundish.layout.widths import SHORTEST
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("prewall/in-corner", source="geometry: two frames cannot stand in one corner")
def in_corner(room: Room, book: Book) -> Iterator[Finding]:
    """A pre-wall along a wall is joined to one across the corner at either end, stops against it, or stands clear by the covering of both.

    Two across corners of one wall stand clear. One that runs into the other is framed, boarded and tiled where the other stands, and so
    counted twice. A lower run stops against the other's front. Two are not joined where the run is higher, where one alone has a shelf, or
    where the run is too deep for the other.
    """
    for place, (met, join, against) in enumerate(zip(room.in_corners, room.joins, stopped(room), strict=True)):
        if met is not None and room.corner is not None:
            yield _two(room, room.corner, met)
        elif met is not None and join is None and against is None:
            yield _apart(room, met, left=place == 0)


def _two(room: Room, own: Across, met: InCorner) -> Finding:
    """Of two across the corners of one wall, how much of it the first leaves to the other."""
    wall = next(side for side in room.sides if side.letter == room.wall)
    tiles = (own.setback + aslant(room.thickness, own.half).named("Its own covering, along the wall")).named("Its own tiles on the wall")
    has, least = (wall.length - tiles).named(f"Left of wall {wall.letter}"), met.covered(room.thickness)
    state = judge(has, least, None)
    message = ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        over = least.value - has.value
        message = f"The two run into one another on wall {wall.letter}, {show_length(math.ceil(round(over, 6)))} too far."
        found = ((own.setback.value, f"{room.prewall_path}.setback", "this one"), (met.setback.value, f"{met.at}.setback", met.name))
        ways = tuple(_nearer(now - over, at, name) for now, at, name in found if now - over >= NEAREST)
        message += " Set one nearer its corner." if ways else " There is no room for both: take one of them out."
    return Finding(f"Clear of {met.name}", "Clearances", state, has, "Own rule", "measured", least, None, message, "", ways)


NEAREST: Final = 300.0
"""No frame stands nearer to its corner."""


def _nearer(setback: float, at: str, name: str) -> WayOut:
    most = float(math.floor(round(setback, 6)))
    return WayOut(f"Set {name} {show_length(most)} from its corner: frame, tie rods, boards and tiles follow.", at, most)


def _apart(room: Room, met: InCorner, *, left: bool) -> Finding:
    least = met.clear(room.thickness)
    has = (
        room.start.named("Start of the pre-wall")
        if left
        else (room.width - room.start - room.run).named("End of the pre-wall to the corner")
    )
    state = judge(has, least, None)
    message = ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        message, ways = _mend(room, met, float(math.ceil(round(least.value, 6))), left=left)
    return Finding(f"Clear of {met.name}", "Clearances", state, has, "Own rule", "measured", least, None, message, "", ways)


def _mend(room: Room, met: InCorner, least: float, *, left: bool) -> tuple[str, tuple[WayOut, ...]]:
    """What is wrong and how it is mended; no way out by a press where that leaves nothing of the pre-wall."""
    wrong = f"It runs into {met.name}, across the corner: what is in both is counted twice."
    bar, joining = _joining(room, met, left=left)
    wrong = f"{wrong} {bar}" if bar else wrong
    end = room.start.value + room.run.value if left else room.width.value - least
    begins = least if left else room.start.value
    if end - begins < SHORTEST:
        return f"{wrong} There is no room for both: take one of them out, or set that one nearer its corner.", joining
    if left:
        words = f"Start the pre-wall {show_length(least)} from the left wall, with a return: what hangs on it must stand right of that."
        return f"{wrong} Start it at {show_length(least)}.", (*joining, WayOut(words, f"{room.prewall_path}.from_left", least))
    words = f"Shorten the pre-wall to {show_length(end - begins)}, with a return: rails, boards and tiles shorten with it."
    return f"{wrong} End it {show_length(least)} before the corner.", (*joining, WayOut(words, f"{room.prewall_path}.run", end - begins))


def _joining(room: Room, met: InCorner, *, left: bool) -> tuple[str, tuple[WayOut, ...]]:
    """Why the two are not joined, and what would join them by a press."""
    same, path = "the fronts then go on into one another, with one shelf or capping", room.prewall_path
    if _lower(room, met):
        return _on_to_it(room, f"it stops against {met.name}, boards, tiles and shelf cut to the angle.", left=left)
    match met.bar:
        case "heights":
            words = f"Build this one to part height as well: {same}."
            return "They are not joined: one goes to the ceiling, the other does not.", (WayOut(words, f"{path}.height", "part"),)
        case "tops" if met.top is not None:
            top = met.top.value
            own = must_read(room.prewall, "top", path).value
            ways = (
                WayOut(f"Set the top of this one to {show_length(top)} as well: {same}.", f"{path}.top", top),
                WayOut(f"Set the top of {met.name} to {show_length(own)} as well: {same}.", f"{met.at}.top", own),
            )
            return f"They are not joined: the top of {met.name} is at {show_length(top)}.", ways
        case "shelves":
            return "They are not joined: one has a shelf and the other a capping. Choose the same for both.", ()
        case "deep":
            return f"They are not joined: it is too deep for {met.name}. {_nearer_front(room, met)}", ()
        case _:
            return _on_to_it(room, f"it is joined to {met.name}, and {same}.", left=left)


def _lower(room: Room, met: InCorner) -> bool:
    """Whether it would stop against the other if it reached that."""
    if room.prewall.height == "full":
        return False
    own = must_read(room.prewall, "top", room.prewall_path).value
    return met.bar == "heights" or (met.bar == "tops" and met.top is not None and own < met.top.value)


def _on_to_it(room: Room, then: str, *, left: bool) -> tuple[str, tuple[WayOut, ...]]:
    """A run that ends short of the other, let on to the wall, and what it does then."""
    path = room.prewall_path
    if left and room.prewall.from_left is not None:
        return "", (WayOut(f"Start it at the left wall: {then}", f"{path}.from_left", 0.0),)
    return "", (WayOut(f"Let it run on to the right wall: {then}", f"{path}.run", room.width.value - room.start.value),)


def _nearer_front(room: Room, met: InCorner) -> str:
    """How much less deep the run, or how much further out the other, would have to be."""
    turn = math.radians(met.half)
    deep, out = met.setback.value * math.sin(turn) * math.cos(turn), room.depth.value / (math.sin(turn) * math.cos(turn))
    less, more = show_length(math.floor(deep)), show_length(math.ceil(out))
    return f"They meet where it is less than {less} deep, or {met.name} more than {more} from its corner."
