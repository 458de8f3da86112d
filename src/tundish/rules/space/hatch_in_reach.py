"""Whether an access opening is of use to whoever has to work through it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.recesses import Recess
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.reaching import hand_hole
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("space/hatch-in-reach", figures=("space.hand", "space.opening_low", "space.opening_high"), source="common practice")
def hatch_in_reach(room: Room, book: Book) -> Iterator[Finding]:
    """An access opening lets hand and tool through, where somebody kneeling or standing can use them.

    Its smaller side, and its middle above the finished floor: lower, one works lying down; higher, on steps.
    """
    for hatch in room.recesses:
        if hatch.kind == "hatch":
            yield _wide_enough(hatch, book)
            yield _high_enough(room, hatch, book)


def _wide_enough(hatch: Recess, book: Book) -> Finding:
    has, least = hand_hole(hatch), book.figure("space.hand")
    state = judge(has, least, None, "look")
    message, ways = "", _NO_WAYS
    if state != "passes":
        message = f"{show_length(least.value - has.value)} short for a hand with a spanner in it."
        ways = tuple(_larger(hatch, least.value, book))
    return Finding("Hand and tool go in", "Clearances", state, has, "Own rule", least.note, least, None, message, hatch.name, ways)


def _larger(hatch: Recess, least: float, book: Book) -> Iterator[WayOut]:
    """The smallest hatch of the catalogue that a hand goes through."""
    sized = [
        (item.sizes["width"][0] * item.sizes["height"][0], item.code, item.name)
        for item in book.items.values()
        if item.kind == "access hatch" and all(item.has(each) and item.sizes[each][0] >= least for each in ("width", "height"))
    ]
    if sized:
        _, code, name = min(sized)
        yield WayOut(f"Take {name}: its trimmers and the tiles round it are set out anew.", f"{hatch.path}.item", code)


def _high_enough(room: Room, hatch: Recess, book: Book) -> Finding:
    half = (hatch.height / 2).named("Half of its height")
    has = (hatch.bottom + half - room.finished_floor).named(f"Middle of {hatch.name} above finished floor")
    least, most = book.figure("space.opening_low"), book.figure("space.opening_high")
    state = judge(has, least, most, "look")
    message, ways = "", _NO_WAYS
    if state != "passes":
        low = has.value < least.value
        to = math.ceil(least.value - half.value) if low else math.floor(most.value - half.value)
        message = "One lies on the floor to work through it." if low else "It is worked through from steps."
        words = f"Set its bottom at {show_length(to)}: what is behind has to be in reach from there."
        ways = (WayOut(words, f"{hatch.path}.bottom", to),)
    return Finding(_HEIGHT, "Clearances", state, has, "Own rule", least.note, least, most, message, hatch.name, ways)


_HEIGHT: Final = "Opening at a height to work at"
_NO_WAYS: Final[tuple[WayOut, ...]] = ()
