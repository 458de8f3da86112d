"""Whether a slope leaves room over each frame, and for a head over each appliance."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.clip import box
from tundish.layout.room import Placed, Room
from tundish.layout.walls import Point
from tundish.measure import show_length
from tundish.rules.rule import Finding, judge, rule


@rule("space/headroom", figures=("space.headroom", "space.front"), source="from memory: headroom as on stairs, Approved Document K")
def headroom(room: Room, book: Book) -> Iterator[Finding]:
    """A frame stands clear beneath each slope, and there is room for a head over an appliance and before it.

    Measured from the finished floor, from the wall to the edge of the clear floor in front of it. Across a corner a frame is asked
    from its back, not from the walls that part behind it.
    """
    for under in room.around.unders:
        for one in room.framed:
            over_frame = under.lowest_over(box(one.left, one.right, _back(room, one), room.depth.value))
            if over_frame is not None:
                yield _frame(
                    one, number(round(over_frame, 1), label=f"Lowest of the {under.name} over the frame of {one.name}"), under.name
                )
        for one in room.placed:
            over_head = under.lowest_over(_standing(room, one, book))
            if over_head is not None:
                lowest = number(round(over_head, 1), label=f"Lowest of the {under.name} over {one.name}")
                yield _head(one, (lowest - room.finished_floor).named(f"Head room at {one.name}"), under.name, book)


def _back(room: Room, one: Placed) -> float:
    return 0.0 if room.corner is None else room.depth.value - one.frame.size("depth").value


def _standing(room: Room, one: Placed, book: Book) -> tuple[Point, ...]:
    """What an appliance and whoever uses it take up, in plan."""
    half = one.ware.size("width").value / 2
    front = room.figures["finished_face"].value + one.ware.size("projection").value
    return box(one.centre.value - half, one.centre.value + half, front, front + book.figure("space.front").value)


def _frame(one: Placed, has: Figure, under: str) -> Finding:
    least = one.figures["frame_top"]
    state = judge(has, least, None)
    message = ""
    if state != "passes":
        message = f"{show_length(least.value - has.value)} too high there: a lower frame, or another place along the wall."
    return Finding(f"Frame beneath the {under}", "Clearances", state, has, "Own rule", "measured", least, None, message, one.name)


def _head(one: Placed, has: Figure, under: str, book: Book) -> Finding:
    least = book.figure("space.headroom")
    state = judge(has, least, None, "look")
    message = ""
    if state != "passes":
        message = f"{show_length(least.value - has.value)} short beneath the {under}: try it standing there before it is agreed."
    return Finding(f"Head room beneath the {under}", "Clearances", state, has, "Guidance", least.note, least, None, message, one.name)
