"""Whether what can fail behind the boards is reached afterwards."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.design import BY_VALVE, IN_FRONT
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.pipes import shut_in_front
from tundish.rules.reaching import REACH, Hidden, air_valve, moved, reached, valves
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule(
    "space/access",
    figures=REACH,
    source="valves: Water Fittings Regulations 1999, schedule 2; air valves: Approved Document H; both from memory; common practice",
)
def access(room: Room, book: Book) -> Iterator[Finding]:
    """Every valve, cistern and air valve behind the boards is reached through a flush plate or an access opening.

    Of a WC and a urinal through the flush plate, the trap of a urinal by lifting it off; a trap in the wall has a cover of its own. Valves
    of the others are reached where they stand in front of the wall, or through an opening that a hand goes through, within a forearm of
    it sideways, up and in. So is an air admittance valve, above the overflow of its appliance. Joints of pipe are seen, pulled and tested
    before the wall is closed.
    """
    for one in room.placed:
        hidden = valves(room, one)
        if one.kind in {"wc", "urinal"}:
            yield _through_the_plate(one)
        elif hidden and not shut_in_front(one):
            ways = (
                (WayOut(f"Shut {one.name} off in front of the wall: the valves are seen below it.", f"{one.path}.valves", IN_FRONT),)
                if one.kind in {"basin", "bidet"}
                else ()
            )
            yield _told("Reached afterwards", room, one, hidden, book, ways)
        if one.choice.vented == BY_VALVE and (vent := air_valve(room, one)):
            yield _told("Air valve reached afterwards", room, one, vent, book)


def _through_the_plate(one: Placed) -> Finding:
    has, least = number(int(bool(one.choice.plate)), "", "Reached"), number(1, "", "Behind the boards")
    state = judge(has, least, None, "look")
    words = "" if state == "passes" else "Choose its flush plate: cistern and valve are reached through it alone."
    return Finding("Reached afterwards", "Water", state, has, "Regulation", _SOURCE, least, None, words, one.name)


def _told(title: str, room: Room, one: Placed, hidden: Sequence[Hidden], book: Book, ways: tuple[WayOut, ...] = ()) -> Finding:
    found = reached(room, hidden, book)
    has, least = number(found.found, "", "Reached"), number(len(hidden), "", "Behind the boards")
    state = judge(has, least, None, "look")
    words = ""
    if state != "passes":
        other = ", or bring them in front of the wall" if ways else ""
        words = f"Set an access opening within {show_length(book.figure('space.arm').value)} of {_them(hidden)}{other}."
        words = f"Out of reach: {found.missed}. {words}" if found.missed else words
        ways = (*ways, *moved(room, hidden, book))
    else:
        ways = ()
    air = title != "Reached afterwards"
    return Finding(
        title, "Falls" if air else "Water", state, has, "Guidance" if air else "Regulation", _AIR if air else _SOURCE,
        least, None, words, one.name, ways,
    )  # fmt: skip


def _them(hidden: Sequence[Hidden]) -> str:
    return "it" if len(hidden) == 1 else "them"


_SOURCE = "Water Fittings Regulations 1999, schedule 2, from memory"
_AIR = "Approved Document H and EN 12380, from memory: where it can be reached"
