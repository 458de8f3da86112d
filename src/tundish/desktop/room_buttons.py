"""Adding a room to the job, and taking the chosen one out: each one step that can be undone."""

from __future__ import annotations

from itertools import count

from PySide6.QtWidgets import QPushButton

from tundish.desktop.words import button
from tundish.desktop.workspace import Workspace
from tundish.layout.design import RoomPlan

ONLY = "A job has one room at least."
SAWN = "Pieces of this job are cut already, and their marks go by the rooms: undo the cuts on Cutting first."


def room_buttons(workspace: Workspace) -> tuple[QPushButton, QPushButton]:
    """The two buttons; the second is dim, and says why, where no room can be taken out."""
    add, out = button("Add a room", "add"), button("Take out this room", "cross")
    add.clicked.connect(lambda: add_room(workspace))
    out.clicked.connect(lambda: take_out_room(workspace))
    why = ONLY if not workspace.job.rooms[1:] else SAWN if workspace.job.sawn else ""
    out.setEnabled(not why)
    out.setToolTip(why)
    return add, out


def add_room(workspace: Workspace) -> None:
    """Add an empty room with a name of its own, and go on in it."""
    names = {each.name for each in workspace.job.rooms}
    name = next(made for number in count(2) if (made := f"Room {number}") not in names)
    if workspace.add("rooms", RoomPlan(name=name), f"add {name}"):
        workspace.choose_room(len(workspace.job.rooms) - 1)


def take_out_room(workspace: Workspace) -> None:
    """Take the chosen room out, with what the options change of it."""
    job, place = workspace.job, workspace.room_place
    if workspace.remove("rooms", place, f"take out {job.rooms[place].name}"):
        workspace.choose_room(max(place - 1, 0))
