"""Whether a soil pipe passes behind what stands in its way."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import PipeRun, Room
from tundish.rules.members import UPRIGHT, marked
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.ways import set_depth


@rule("prewall/void", figures=("void.clip", "void.finger"), source="common practice")
def void(room: Room, book: Book) -> Iterator[Finding]:
    """The void passes the soil pipe, its clip and a finger behind every frame and upright on its way.

    Measured from the wall to the back of the frame or upright. A run that passes behind nothing is not checked; across a corner, where the
    walls part behind the frame, it is asked in three dimensions with the pipes that cross.
    """
    for run in room.pipes_of("soil") if room.corner is None else ():
        behind = _behind(room, run)
        if behind is None:
            continue
        pipe = book.role(f"soil pipe {run.size}").size("diameter").named("Soil pipe, outside")
        least = (pipe + book.figure("void.clip") + book.figure("void.finger")).named("Soil pipe, clip and a finger")
        has, what = behind
        state = judge(has, least, None)
        message = ""
        ways: tuple[WayOut, ...] = ()
        if state != "passes":
            message = f"The pipe does not pass behind the {what}. Bring the pre-wall forward, or move the appliance nearer to the stack."
            ways = (set_depth(room, room.depth.value + least.value - has.value),)
        yield Finding("Soil pipe in the void", "Void", state, has, "Own rule", "common practice", least, None, message, run.what, ways)


def _behind(room: Room, run: PipeRun) -> tuple[Figure, str] | None:
    """The least space between the wall and what the run passes behind, and what that is."""
    places = [x for x, _ in run.points]
    left, right = min(places), max(places)
    own = next((one for one in room.placed if one.key == run.serves), None)
    spaces = [
        ((room.depth - one.frame.size("depth")).named(f"Behind the frame of {one.name}"), f"frame of {one.name}")
        for one in room.framed
        if one is not own and one.left < right and one.right > left
    ]
    passed = [one for one in marked(room, UPRIGHT) if left < one.x + one.section[0] / 2 < right]
    if passed:
        spaces.append(((room.depth - passed[0].section[1]).named("Behind the uprights"), f"upright {passed[0].mark}"))
    return min(spaces, key=lambda one: one[0].value, default=None)
