"""How hard a frame pulls at what holds it, and whether that holds."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, Known, converted, number, total
from tundish.layout.corner import Across
from tundish.layout.once import once
from tundish.layout.room import Member, Placed, Room
from tundish.rules.amounts import bare
from tundish.rules.planning import FIRST
from tundish.rules.rule import Finding, SetBy, judge


def reach(room: Room, one: Placed) -> Figure:
    """From the front of the frame to the front edge of what hangs on it."""
    return (room.thickness + one.ware.size("projection")).named("Frame front to front edge")


@once
def pull(room: Room, book: Book, one: Placed) -> Figure:
    """The test load at the ware's front edge, by its reach from the frame, over the height of the brackets; kN."""
    return (book.figure(f"loads.{one.kind}") * reach(room, one) / one.figures["bracket"]).named(f"Pull at the head of {one.name}")


def held_by(room: Room, strut: Member) -> list[Placed]:
    """The frames whose wall brackets pull at a strut."""
    keys = {key for key, _ in strut.pulled}
    return [one for one in (*room.tied, *(one for one, _ in room.also_held)) if one.key in keys]


def holder(room: Room, strut: Member, held: list[Placed]) -> str:
    """Whose strut it is; across a corner, with its wall."""
    names = ", ".join(one.name for one in held)
    return names if room.corner is None else f"{names}, {_wall_of(strut)}"


def pull_on(room: Room, book: Book, one: Placed, strut: Member) -> Figure:
    """How hard a frame pulls at a strut: across a corner at each of two, and square to its wall; also from there at that of a run."""
    whole = pull(room, book, one)
    corner = next((corner for other, corner in room.also_held if other is one), room.corner)
    wall = f"wall {room.wall}" if room.corner is None else _wall_of(strut)
    return whole if corner is None else (whole / _shared(corner)).named(f"Pull of {one.name}, square to {wall}")


def shares(room: Room, book: Book, strut: Member, held: Sequence[Placed]) -> list[tuple[Figure, int]]:
    """What pulls at a strut and how many wall studs hold that: all of it together, and each frame near its own brackets."""
    pulls = [pull_on(room, book, one, strut) for one in held]
    together = (total(pulls, "Pull on the strut"), len(strut.bears))
    return [together, *((force, _studs_at(strut, one)) for force, one in zip(pulls, held, strict=True))]


def _studs_at(strut: Member, one: Placed) -> int:
    """The wall studs from the one left of a frame's brackets to the one right of them."""
    places, at = strut.bears, [place for key, place in strut.pulled if key == one.key]
    first = max((each for each in places if each <= min(at)), default=places[0])
    last = min((each for each in places if each >= max(at)), default=places[-1])
    return sum(first <= each <= last for each in places)


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


def on_each(what: str, has: Figure, holds: tuple[Item, Figure | None], mend: Callable[[float], str], place: str, told: str = "") -> Finding:
    """Whether a fixing holds what pulls at each, by what it may be pulled with.

    `mend` says what to do where it pulls so many times as hard; `told` is said however it turns out.
    """
    title, (fixing, most) = f"Pull on each {what}", holds
    if most is None:
        reckoned = ", and too little of its thread is in the timber to work it out" if fixing.has("thread_length") else ""
        mended = "choose a longer one, or " if reckoned else ""
        words = f"The maker's sheet of {fixing.name} gives no pull{reckoned}: {mended}enter it in the catalogue. {FIRST}"
        return Finding(title, "Loads and tiles", "cannot tell", has, "Maker", fixing.sheet, message=words, place=place)
    state = judge(has, None, most)
    words = " ".join(each for each in ("" if state == "passes" else mend(has.value / most.value), told, FIRST) if each)
    set_by: SetBy = "Maker" if most.known is Known.MAKER else "Guidance"
    return Finding(title, "Loads and tiles", state, has, set_by, most.note, None, most, words, place)


def declared(fixing: Item) -> tuple[Item, Figure | None]:
    """A fixing with the pull that its maker's sheet declares, None where it declares none."""
    return fixing, fixing.size("pull_kn") if fixing.has("pull_kn") else None


def back_share(room: Room, book: Book, one: Placed) -> tuple[Figure, Figure]:
    """How much of the load comes back from the wall, in per cent: with the load on the middle of the seat, and at the front edge."""
    stands_out = one.ware.size("projection")
    middle = (room.thickness + stands_out * book.figure("loads.seat_middle")).named("Frame front to middle of the seat")
    at = (("at the middle of the seat", middle), ("at the front edge", reach(room, one)))
    inside, edge = (converted(arm / one.figures["bracket"], "%", f"Share of the wall, load {where}") for where, arm in at)
    return inside, edge


def share_words(room: Room, book: Book, held: Sequence[Placed]) -> str:
    """How the load of each frame is shared between the wall and the floor's side, the load's place named."""
    said = []
    for one in held:
        middle, edge = (round(each.value) for each in back_share(room, book, one))
        sat = f"{middle} % with it on the middle of the seat, " if one.kind in _SAT_ON else ""
        said.append(f"Of the load on {one.name} the wall holds back {sat}{edge} % with it at the front edge; the feet carry its weight.")
    return " ".join(said)


_SAT_ON: Final = ("wc", "bidet")
