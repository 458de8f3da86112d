"""Whether a support bar reaches from upright to upright."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("frames/bars", source="maker's sheet of the support bar")
def bars(room: Room, book: Book) -> Iterator[Finding]:
    """Each support bar reaches between the uprights or legs on either side of what it carries, and these leave room for it."""
    for one in room.placed:
        if one.framed:
            continue
        bay = next(((left, right) for left, right in pairwise(room.supports) if left.value <= one.centre.value <= right.value), None)
        if bay is None:
            words = f"{one.name} has no upright on both sides: move it along the wall."
            yield Finding("Support bar", "Clearances", "cannot tell", None, "Maker", one.frame.sheet, message=words, place=one.name)
            continue
        yield _reaches(one, bay)
        yield _clear(one, bay)


def _reaches(one: Placed, bay: tuple[Figure, Figure]) -> Finding:
    has = (bay[1] - bay[0]).named("Upright to upright")
    least, most = one.frame.size("reach_least"), one.frame.size("reach_most")
    state = judge(has, least, most)
    words = "" if state == "passes" else f"Choose a bar that reaches {show_length(has.value)}."
    return Finding("Support bar", "Clearances", state, has, "Maker", one.frame.sheet, least, most, words, one.name)


def _clear(one: Placed, bay: tuple[Figure, Figure]) -> Finding:
    """From the middle of the ware to the nearer upright it must be half of the ware."""
    near = min((one.centre - bay[0], bay[1] - one.centre), key=lambda each: each.value).named("Middle to the nearer upright")
    least = (one.ware.size("width") / 2).named("Half of what is in the wall")
    state = judge(near, least, None)
    words = ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        to = (bay[0].value + bay[1].value) / 2
        words = f"{one.name} meets an upright: move it along the wall."
        ways = (WayOut(f"Move the centre of {one.name} to {show_length(to)}, half way between uprights.", f"{one.path}.centre", to),)
    return Finding("Clear of uprights", "Clearances", state, near, "Maker", one.ware.sheet, least, None, words, one.name, ways)
