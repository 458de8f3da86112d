"""Whether an accessible WC, its place and its room are as the guides ask."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import largest, smallest, without
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.clear_rectangle import clear_rectangle
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.sides import WALLS, Side, sides_of

_KIND = "accessible wc"


@rule(
    "space/accessible-wc",
    figures=("access.seat", "access.front", "access.centre_least", "access.centre_most", "access.long", "access.wide"),
    source="Centre for Accessible Environments, after BS 8300:2001 and Approved Document M volume 2; diagram 18 from memory",
)
def accessible_wc(room: Room, book: Book) -> Iterator[Finding]:
    """An accessible WC has its seat at 480, its front 750 from the wall behind, its middle 470 to 500 from the wall beside.

    Its room is 2,200 by 1,500 at least, clear of pre-walls and boxings as tiled; a boxing beside it is the wall. Guides differ on the wall
    beside: one gives 470, the other 500. Planning and building control have the last word.
    """
    for one in room.of_kind("wc"):
        if one.choice.kind == _KIND:
            yield from _seat(room, one, book)
            yield _front(one, book)
            yield _beside(one, sides_of(room, one, math.inf, WALLS), book)
            yield from _room(room, one, book)


def _seat(room: Room, one: Placed, book: Book) -> Iterator[Finding]:
    wanted = book.figure("access.seat")
    if "seat" not in one.figures:
        words = "Choose the seat: its thickness makes the height."
        yield Finding("Height of the seat", "Clearances", "cannot tell", None, "Guidance", wanted.note, wanted, wanted, words, one.name)
        return
    has = without(one.figures["seat"], room.finished_floor).named("Seat above finished floor")
    state = judge(has, wanted, wanted, "look")
    words = ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        to = one.figures["top"].value - room.finished_floor.value + wanted.value - has.value
        words = f"Set the top of the pan to {show_length(to)}: the seat is then at {show_length(wanted.value)}."
        ways = (WayOut(words, f"{one.path}.top", to),)
    yield Finding("Height of the seat", "Clearances", state, has, "Guidance", wanted.note, wanted, wanted, words, one.name, ways)


def _front(one: Placed, book: Book) -> Finding:
    has, least = one.ware.size("projection").named("Finished face to front of pan"), book.figure("access.front")
    state = judge(has, least, None, "look")
    words = "" if state == "passes" else f"{show_length(least.value - has.value)} short: choose a longer pan."
    return Finding("Front of the pan from the wall", "Clearances", state, has, "Guidance", least.note, least, None, words, one.name)


def _beside(one: Placed, sides: tuple[Side, Side], book: Book) -> Finding:
    left = one.choice.beside == "left"
    side = sides[0 if left else 1]
    has = side.has.named("Middle to the wall beside")
    least, most = book.figure("access.centre_least"), book.figure("access.centre_most")
    state = judge(has, least, most, "look")
    words = ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        off = most.value if has.value > most.value else least.value
        to = side.x + off if left else side.x - off
        words = f"Move the centre of {one.name} to {show_length(to)}: the rail beside it is then in reach."
        ways = (WayOut(words, f"{one.path}.centre", to),)
    return Finding("Middle to the wall beside", "Clearances", state, has, "Guidance", least.note, least, most, words, one.name, ways)


def _room(room: Room, one: Placed, book: Book) -> Iterator[Finding]:
    before = (room.figures["room_depth"] - room.figures["finished_face"]).named("Finished face to the wall opposite")
    long, wide = book.figure("access.long"), book.figure("access.wide")
    sides = clear_rectangle(room, long.value, wide.value) or (room.width, before)
    for title, has, least in (
        ("Length of the room", largest(*sides, label="Longer side"), long),
        ("Width of the room", smallest(*sides, label="Shorter side"), wide),
    ):
        state = judge(has, least, None, "look")
        short = show_length(math.ceil(least.value - has.value))
        words = "" if state == "passes" else f"{short} short of what a wheelchair needs, pre-walls and boxings taken off."
        yield Finding(title, "Clearances", state, has, "Guidance", least.note, least, None, words, one.name)
