"""Whether the tie rods reach from frame to wall."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure
from tundish.layout.bracket_turns import IN, SQUARE
from tundish.layout.room import Placed, Room
from tundish.measure import show_range
from tundish.rules.rods import depth_that_serves, reach_turned, rods_for, some_serves
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("frames/reach", source="maker's sheet of the tie rod")
def reach(room: Room, book: Book) -> Iterator[Finding]:
    """The tie rods reach the wall, however deep the pre-wall turns out.

    It is to be looked at when they reach over part of the range only; how much thread is left in the nut is said over the range.
    """
    for one in room.tied:
        for name, title in (("reach", "Tie rod reach"), ("reach_left", "Tie rod reach, left-hand wall")):
            if name not in one.figures:
                continue
            has = one.figures[name]
            if one.tie_rod is None:
                words = "The catalogue holds no tie rod. Add one with the least and most it reaches."
                yield Finding(title, "Void", "cannot tell", has, "Maker", "maker's sheet", message=words, place=one.name)
            else:
                yield _judged(title, has, one.tie_rod, one, () if room.corner else _ways(room, one, book))


def _judged(title: str, has: Figure, rod: Item, one: Placed, ways: Iterable[WayOut]) -> Finding:
    least, most = rod.size("reach_least"), rod.size("reach_most")
    state, message = judge(has, least, most), f"Thread left in the nut {show_range(most.value - has.high, most.value - has.low)}."
    whole = has.low >= least.value and has.high <= most.value
    if state == "passes" and whole:
        ways = ()
    else:
        state = "look" if state == "passes" else state
        message = "No tie rod reaches this far. Change the depth of the pre-wall, or find one that does."
        if one.choice.tie_rod == rod.code:
            why = f" ({one.choice.settings_why.strip()})" if one.choice.settings_why.strip() else ""
            over = "at all" if state == "fails" else "over the whole range"
            message = f"The tie rod of your own choice{why} does not serve {over}: leave it blank to have one chosen, or settle the depth."
        elif state == "look":
            message = "No tie rod serves the whole range. Settle the depth of the pre-wall."
    return Finding(title, "Void", state, has, "Maker", rod.sheet, least, most, message, one.name, tuple(ways))


def _ways(room: Room, one: Placed, book: Book) -> Iterator[WayOut]:
    """The trader's own rod given up, the brackets turned otherwise, or the nearest depth that serves."""
    every, mine = [each for each in book.of_kind("tie rod") if each.has("reach_least") and each.has("reach_most")], rods_for(one, book)
    if len(mine) < len(every) and some_serves(every, one.figures["reach"]):
        yield WayOut(f"Leave the tie rod of {one.name} to be chosen by rule: one serves.", f"{one.path}.tie_rod", "")
    for turn, words in ((SQUARE, "square to the wall"), (IN, "in")):
        if one.choice.bracket != turn and some_serves(mine, reach_turned(one, turn)):
            yield WayOut(f"Turn the wall brackets of {one.name} {words}: a tie rod reaches from there.", f"{one.path}.bracket", turn)
    depth = depth_that_serves(room, one.figures["reach"], mine)
    if depth is not None:
        yield depth
