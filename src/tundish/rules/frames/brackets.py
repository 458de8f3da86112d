"""Whether the wall brackets of frames side by side, and a side wall, leave room for one another."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, judge, rule


@rule("frames/brackets", figures=("frames.bracket_clear",), source="own rule: a spanner turns between two tie rods")
def brackets(room: Room, book: Book) -> Iterator[Finding]:
    """The wall brackets of each frame clear those of the next one, and the side walls.

    Turning a bracket makes room, where the frame's sheet says how far one turns.
    """
    least = book.figure("frames.bracket_clear")
    frames = room.tied
    for left, right in pairwise(frames):
        has = (right.figures["bracket_left"] - left.figures["bracket_right"]).named("Between their wall brackets")
        yield _finding(has, least, f"{left.name} and {right.name}")
    if frames and room.at_wall[0]:
        yield _finding(frames[0].figures["bracket_left"].named("Left wall to wall bracket"), least, f"{frames[0].name} and left wall")
    if frames and room.at_wall[1]:
        has = (room.width - frames[-1].figures["bracket_right"]).named("Wall bracket to right wall")
        yield _finding(has, least, f"{frames[-1].name} and right wall")


def _finding(has: Figure, least: Figure, place: str) -> Finding:
    state = judge(has, least, None)
    message = ""
    if state != "passes":
        message = f"{show_length(least.value - has.value)} short: turn a wall bracket in, or move one of them along the wall."
    return Finding("Wall brackets apart", "Clearances", state, has, "Own rule", least.note, least, None, message, place)
