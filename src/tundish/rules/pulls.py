"""How hard a frame pulls at what holds it, and whether that holds."""

from __future__ import annotations

import math
from collections.abc import Callable

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, number
from tundish.layout.corner import Across
from tundish.layout.room import Member, Placed, Room
from tundish.rules.amounts import bare
from tundish.rules.planning import FIRST
from tundish.rules.rule import Finding, judge


def reach(room: Room, one: Placed) -> Figure:
    """From the front of the frame to the front edge of what hangs on it."""
    return (room.thickness + one.ware.size("projection")).named("Frame front to front edge")


def pull(room: Room, book: Book, one: Placed) -> Figure:
    """The test load at the ware's front edge, by its reach from the frame, over the height of the brackets; kN."""
    return (book.figure(f"loads.{one.kind}") * reach(room, one) / one.figures["bracket"]).named(f"Pull at the head of {one.name}")


def held_by(room: Room, strut: Member) -> list[Placed]:
    """The frames whose wall brackets pull at a strut."""
    keys = {key for key, _ in strut.pulled}
    return [one for one in room.tied if one.key in keys]


def holder(room: Room, strut: Member, held: list[Placed]) -> str:
    """Whose strut it is; across a corner, with its wall."""
    names = ", ".join(one.name for one in held)
    return names if room.corner is None else f"{names}, {_wall_of(strut)}"


def pull_on(room: Room, book: Book, one: Placed, strut: Member) -> Figure:
    """How hard a frame pulls at a strut: across a corner at each of two, and square to its wall."""
    whole = pull(room, book, one)
    return whole if room.corner is None else (whole / _shared(room.corner)).named(f"Pull of {one.name}, square to {_wall_of(strut)}")


def on_rod(room: Room, book: Book, one: Placed) -> Figure:
    """How hard a frame pulls at each of its tie rods; across a corner they pull aslant, and so harder."""
    rods = bare(one.frame.size("brackets")).named("Tie rods")
    if room.corner is not None:
        rods = (rods * _aslant(room.corner)).named("Tie rods, aslant")
    return (pull(room, book, one) / rods).named(f"Pull on each tie rod of {one.name}")


def _wall_of(strut: Member) -> str:
    return strut.where.partition(",")[0].removeprefix("on ")


def _shared(corner: Across) -> Figure:
    return (number(2, "", "Tie rods") * _aslant(corner)).named("Tie rods, aslant")


def _aslant(corner: Across) -> Figure:
    """How much of what a rod square to its wall holds is straight back from the front."""
    return number(round(math.sin(math.radians(corner.half)), 6), "", f"Straight back of a rod at {corner.half:g}° to the middle")


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
