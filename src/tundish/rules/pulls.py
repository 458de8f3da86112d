"""How hard a frame pulls at what holds it, and whether that holds."""

from __future__ import annotations

from collections.abc import Callable

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure
from tundish.layout.room import Member, Placed, Room
from tundish.rules.planning import FIRST
from tundish.rules.rule import Finding, judge


def reach(room: Room, one: Placed) -> Figure:
    """From the front of the frame to the front edge of what hangs on it."""
    return (room.thickness + one.ware.size("projection")).named("Frame front to front edge")


def pull(room: Room, book: Book, one: Placed) -> Figure:
    """The test load at the ware's front edge, by its reach from the frame, over the height of the brackets; kN."""
    return (book.figure(f"loads.{one.kind}") * reach(room, one) / one.figures["bracket"]).named(f"Pull at the head of {one.name}")


def held_by(room: Room, strut: Member) -> list[Placed]:
    """The frames whose wall brackets lie on a strut."""
    right, top = strut.x + strut.length.value, strut.z + strut.section[0]
    return [
        one
        for one in room.tied
        if strut.z <= one.figures["bracket"].value <= top
        and strut.x <= one.figures["bracket_left"].value <= one.figures["bracket_right"].value <= right
    ]


def on_each(what: str, has: Figure, fixing: Item, mend: Callable[[float], str], place: str) -> Finding:
    """Whether a fixing holds what pulls at each; `mend` says what to do where it pulls so many times as hard as it may."""
    title = f"Pull on each {what}"
    if not fixing.has("pull_kn"):
        words = f"The maker's sheet of {fixing.name} gives no pull: enter it in the catalogue. {FIRST}"
        return Finding(title, "Loads and tiles", "cannot tell", has, "Maker", fixing.sheet, message=words, place=place)
    most = fixing.size("pull_kn")
    state = judge(has, None, most)
    words = FIRST if state == "passes" else f"{mend(has.value / most.value)} {FIRST}"
    return Finding(title, "Loads and tiles", state, has, "Maker", fixing.sheet, None, most, words, place)
