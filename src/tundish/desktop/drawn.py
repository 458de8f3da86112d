"""What is drawn on Setting out: the wall, or the whole room, with words as large beside it as they will be seen."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from tundish.catalogue.book import Book
from tundish.desktop.canvas.view import DrawingView
from tundish.desktop.live import Sight
from tundish.desktop.setting_tools import SettingTools
from tundish.documents.plan_drawing import whole_room
from tundish.documents.wall_sheet import wall_sheet
from tundish.layout.design import RoomPlan
from tundish.layout.room import Room

_TRIES: Final = 3
_ALIKE: Final = 0.08
"""Words within so much of the size that the drawing was made for stand well beside it."""


class Drawn:
    """Draws in a view what the tools say, and knows of what it did so last."""

    def __init__(self, view: DrawingView, tools: SettingTools) -> None:
        self._view, self._tools = view, tools
        self._of: tuple[RoomPlan, int, Book] | None = None

    def show(self, room: Room, sight: Sight, book: Book, *, finish: bool) -> None:
        """The room as it is; drawn again where its words turn out larger or smaller beside it than it was made for."""
        self._of = (room.plan, room.place, book)
        self._tools.show = replace(self._tools.show, finish=finish)
        others = tuple(each for each in sight.rooms if each is not room)
        for _ in range(_TRIES):
            whole, show = self._tools.whole.isChecked(), self._tools.show
            self._view.show_drawing(whole_room(room, show, sight.findings, others) if whole else wall_sheet(room, show, sight.findings))
            line = self._view.line_mm()
            if whole or abs(line - show.line) < _ALIKE * show.line:
                return
            self._tools.show = replace(show, line=line)

    def already(self, room: Room, book: Book) -> bool:
        """Whether the room was drawn as it is while its estimate was on its way: alike where nothing is left open."""
        if self._of is None or room.plan.undecided:
            return False
        plan, place, of = self._of
        return plan is room.plan and place == room.place and of is book
