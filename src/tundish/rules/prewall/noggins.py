"""Whether what is to be fixed to the pre-wall has something behind it all along."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure, between, number
from tundish.layout.room import Backed, Room
from tundish.measure import show_length
from tundish.rules.members import RAIL_NOGGIN, marked
from tundish.rules.rule import Finding, State, rule

_SOURCE = "common practice"
_SEEN: Final = 1.0
"""A gap that nobody would find, mm."""


@rule("prewall/noggins", source=_SOURCE)
def noggins(room: Room, book: Book) -> Iterator[Finding]:
    """What is fixed between the frames has a noggin behind it all along.

    In the bay of a frame, a niche or an access opening there is none, nor beyond the pre-wall.
    """
    yield from (_checked(room, each) for each in room.backed)


def _checked(room: Room, backed: Backed) -> Finding:
    bare = _bare(room, backed)
    held = backed.reach.value - sum(right - left for left, right in bare)
    has = (number if backed.left.settled and backed.reach.settled else _open)(held)
    where = " and ".join(f"from {show_length(left)} to {show_length(right)}" for left, right in bare)
    message = f"Nothing is behind it {where} from the left wall: move it, shorten it, or put ply behind the board." if bare else ""
    title = f"Noggin of {backed.name}"
    state: State = "fails" if bare else "passes"
    return Finding(title, "Clearances", state, has, "Own rule", _SOURCE, backed.reach, None, message, backed.name)


def _open(held: float) -> Figure:
    """As it is set out now; where it will hang is to be confirmed."""
    return between(held, held, held)


def _bare(room: Room, backed: Backed) -> list[tuple[float, float]]:
    """The stretches of it with neither a noggin nor the support beside one behind them."""
    level = backed.level.value
    there = [one for one in marked(room, RAIL_NOGGIN) if one.z <= level <= one.z + one.section[0]]
    held = sorted((one.x - one.section[0], one.x + one.length.value + one.section[0]) for one in there)
    made, reached = [], backed.left.value
    for left, right in held:
        if left > reached:
            made.append((reached, min(left, backed.right.value)))
        reached = max(reached, right)
    made.append((reached, backed.right.value))
    return [(left, right) for left, right in made if right - left >= _SEEN]
