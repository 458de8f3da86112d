"""Adding an appliance: its first model, frame and fittings, a name of its own, on the next free place of the wall."""

from __future__ import annotations

from dataclasses import replace
from itertools import count
from typing import Final

from tundish.desktop.workspace import Workspace
from tundish.field import Entry, describe, get, put
from tundish.figure import Known
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.design import PREWALLS, Appliance, Hatch, Niche
from tundish.layout.recesses import HATCH_SIDE, hatch_key, niche_key
from tundish.layout.room import Room

ELBOW: Final = 100.0
"""Left free beside an appliance that is added, where there is room."""


def add_niche(workspace: Workspace) -> str:
    """Add a niche to the pre-wall that is looked at, beside what hangs there; gives its id as a piece."""
    room = workspace.room
    if room is None:
        return ""
    listed, count = f"{room.prewall_path}.niches", len(room.prewall.niches)
    wide, high, bottom = (float(describe(Niche, name).usual or 0) for name in ("width", "height", "bottom"))
    left, top = next_centre(room, wide) - wide / 2, room.top.value - room.finished_floor.value
    under = Entry(max(min(bottom, top - high - ELBOW), 0.0), Known.ASSUMED)
    workspace.add(listed, Niche(from_left=Entry(left, Known.ASSUMED), bottom=under), f"add niche {count + 1}")
    return niche_key(count)


def add_hatch(workspace: Workspace) -> str:
    """Add an access opening to the pre-wall that is looked at; gives its id as a piece."""
    room = workspace.room
    if room is None:
        return ""
    listed, count = f"{room.prewall_path}.hatches", len(room.prewall.hatches)
    item = next((each.code for each in workspace.book.of_kind("access hatch")), "")
    left = next_centre(room, HATCH_SIDE) - HATCH_SIDE / 2
    workspace.add(listed, Hatch(item=item, from_left=Entry(left, Known.ASSUMED)), f"add access opening {count + 1}")
    return hatch_key(count)


def add_appliance(workspace: Workspace, kind: str) -> str:
    """Add an appliance to the chosen room as one step; gives its name."""
    listed = f"{workspace.room_path}.design.appliances"
    words = KINDS[kind].title
    names = {each.name for each in get(workspace.job, listed)}
    name = next(made for number in count(1) if (made := f"{words} {number}") not in names)
    workspace.add(listed, started(kind, name, workspace), f"add {name}")
    return name


def started(kind: str, name: str, workspace: Workspace) -> Appliance:
    """An appliance with the first model, frame and fittings of its kind, to be changed; where it goes is assumed."""
    book = workspace.book

    def first(of: str) -> str:
        return next((item.code for item in book.of_kind(of)), "")

    def suits(of: str) -> str:
        return next((item.code for item in book.of_kind(of) if item.words.get("for", known.as_kind) == known.as_kind), "")

    known = KINDS[kind]
    frame, ware = first(known.frame), first(known.ware)
    if known.like:  # one for accessible rooms is the longest there is
        ware = max(book.of_kind(known.ware), key=lambda item: item.sizes["projection"][0]).code
    made = Appliance(kind=kind, name=name, ware=ware, frame=frame, on=PREWALLS[workspace.wall_place])
    if workspace.room is not None and frame and book.items[frame].has("width"):
        place = next_centre(workspace.room, book.items[frame].size("width").value)
        made = replace(made, centre=Entry(place, Known.ASSUMED))
    for extra, of in known.extras:
        made = put(made, extra, suits(of))
    return made


def next_centre(room: Room, wide: float) -> float:
    """The centre of the first free place, from the left, for a frame so wide; the middle of the pre-wall where there is none."""
    start, end = room.start.value, room.start.value + room.run.value
    taken = [(each.left, each.right) for each in room.placed]
    taken += [(each.left.value, each.left.value + each.width.value) for each in room.recesses]
    left = start
    for near, far in (*sorted(taken), (end, end)):
        if near - left >= wide:
            return round(left + wide / 2 + min(ELBOW, (near - left - wide) / 2))
        left = max(left, far)
    return round((start + end) / 2)
