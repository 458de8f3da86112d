"""The setting-out sheet of the window: the elevation above, the plan strip below, to one scale and on the same centres."""

from __future__ import annotations

from typing import Final

from tundish.documents.drawing import Drawing, Words, moved
from tundish.documents.plan_drawing import strip
from tundish.documents.wall_drawing import ALL, Show, elevation, foot
from tundish.layout.room import Room
from tundish.rules.rule import Finding

BETWEEN: Final = 30.0
"""What is left free between the two, mm."""
EMPTY: Final = "Add a pan to begin: Ins"


def wall_sheet(room: Room, show: Show = ALL, findings: tuple[Finding, ...] = ()) -> Drawing:
    """Elevation and strip as one drawing; a room with nothing in it yet says how to begin."""
    front, plan = elevation(room, show, findings), strip(room, show)
    left, bottom, wide, high = front.extent
    _, plan_bottom, _, plan_high = plan.extent
    down = bottom - BETWEEN - (plan_bottom + plan_high)
    begun = bool(room.placed or room.plan.design.appliances)
    hint = () if begun else (Words(room.width.value / 2, room.top.value / 2, EMPTY, 3.4, "datum", bold=True),)
    base = plan_bottom + down
    return Drawing(front.title, (*front.marks, *moved(plan.marks, 0, down), *hint), (left, base, wide, bottom + high - base), front.pieces)


def plan_line(room: Room, show: Show = ALL) -> float:
    """The height in the sheet under which the plan is drawn: what is dragged below it keeps its height."""
    return foot(room, show)
