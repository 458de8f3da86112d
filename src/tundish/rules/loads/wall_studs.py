"""Whether the wall struts reach as many wall studs as their screws want."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.design import NOGGINS, PLY
from tundish.layout.room import Member, Room
from tundish.rules.amounts import each
from tundish.rules.grounds import on_timber_studs
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.planning import FIRST
from tundish.rules.pulls import held_by, holder, shares
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.strut_screws import COUNTED, HOLDING, grip_of, screws_over


@rule(
    "loads/wall-studs",
    figures=("loads.wc", "loads.bidet", "loads.basin", "loads.urinal", *COUNTED, *HOLDING),
    source="the pull on the wall and what its screws hold: loads/wall-pull; never fewer than two, so that the strut cannot turn",
)
def wall_studs_to_reach(room: Room, book: Book) -> Iterator[Finding]:
    """Each wall strut crosses as many wall studs as it takes to hold its frames.

    The least number of studs whose screws together hold the pull, of all its frames or of the one that asks for most. Where the wall has
    not so many, noggins are fixed between its studs, or ply over them.
    """
    for strut in marked(room, WALL_STRUT):
        held = held_by(room, strut)
        asked = [(studs, _least(room, book, strut, force)) for force, studs in shares(room, book, strut, held)] if held else []
        known = [(studs, least) for studs, least in asked if least is not None]
        if known and len(known) == len(asked):
            has, least = max(known, key=lambda found: found[1] - found[0])
            yield _finding(room, strut, each(has, "Wall studs reached"), each(least, "Wall studs wanted"), holder(room, strut, held))


def _least(room: Room, book: Book, strut: Member, force: Figure) -> int | None:
    """The fewest wall studs whose screws hold a pull; None where it is not known what a screw holds, or no number of them does."""
    for studs in range(2, _MOST):
        screws = screws_over(room, book, strut, studs, "Screws").value
        holds = grip_of(room, book, strut, screws)
        if holds is None:
            return None
        if force.value <= holds.value * screws:
            return studs
    return None


def _finding(room: Room, strut: Member, has: Figure, least: Figure, place: str) -> Finding:
    state = judge(has, least, None)
    message = FIRST
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        message = (
            f"{least.value:g} wall studs would hold it and {strut.mark} has {has.value:g} there: give it noggins or ply behind. {FIRST}"
        )
        ways = tuple(_ways(room, strut))
    return Finding(
        "Wall studs to reach", "Loads and tiles", state, has, "Guidance", "pull of the frames", least, None, message, place, ways
    )


def _ways(room: Room, strut: Member) -> Iterator[WayOut]:
    path = f"{room.prewall_path}.backing"
    if room.prewall.backing != NOGGINS and on_timber_studs(room, strut.x):
        yield WayOut("Noggins between the wall studs behind the strut: the wall is opened there and made good.", path, NOGGINS)
    if room.prewall.backing != PLY:
        yield WayOut("Ply over the wall studs behind the strut, let in instead of the boards: four screws a stud.", path, PLY)


_MOST: Final = 40
