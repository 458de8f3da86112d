"""Whether what can fail behind the boards is reached afterwards."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.design import IN_FRONT
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.pipes import shut_in_front
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule(
    "space/access",
    figures=("space.arm",),
    source="servicing valves are to be accessible: Water Fittings Regulations 1999, schedule 2, from memory; common practice",
)
def access(room: Room, book: Book) -> Iterator[Finding]:
    """Every valve and cistern behind the boards is reached through a flush plate or an access opening.

    Of a WC and a urinal through the flush plate, the trap of a urinal by lifting it off; a trap in the wall has a cover of its own. Valves
    of the others are reached where they stand in front of the wall, or through an opening within a forearm of where the pipes come out.
    """
    for one in room.placed:
        places = _valves(room, one)
        if one.kind in {"wc", "urinal"}:
            yield _told(one, int(bool(one.choice.plate)), 1, "Choose its flush plate: cistern and valve are reached through it alone.", ())
        elif places and not shut_in_front(one):
            arm = book.figure("space.arm")
            reached = sum(_reached(room, x, arm) for x in places)
            ways = (
                (WayOut(f"Shut {one.name} off in front of the wall: the valves are seen below it.", f"{one.path}.valves", IN_FRONT),)
                if one.kind in {"basin", "bidet"}
                else ()
            )
            words = f"Set an access opening within {show_length(arm.value)} of them, or bring them in front of the wall."
            yield _told(one, reached, len(places), words, ways)


def _valves(room: Room, one: Placed) -> list[float]:
    """Where along the wall its hot and cold go up."""
    return [run.points[-1][0] for run in room.pipes_of("hot", "cold") if run.serves == one.key]


def _reached(room: Room, x: float, arm: Figure) -> bool:
    return any(each.kind == "hatch" and each.between(x - arm.value, x + arm.value) for each in room.recesses)


def _told(one: Placed, reached: int, behind: int, words: str, ways: tuple[WayOut, ...]) -> Finding:
    has, least = number(reached, "", "Reached"), number(behind, "", "Behind the boards")
    state = judge(has, least, None, "look")
    if state == "passes":
        words, ways = "", ()
    return Finding("Reached afterwards", "Water", state, has, "Regulation", _SOURCE, least, None, words, one.name, ways)


_SOURCE = "Water Fittings Regulations 1999, schedule 2, from memory"
