"""Setting out: what goes where, and how high?"""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from PySide6.QtCore import QPoint, QRectF, QTimer
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from tundish.desktop import moves, prewalls
from tundish.desktop.as_you_move import AsYouMove, facts
from tundish.desktop.canvas.view import NOTHING, DrawingView
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.dimension_box import DimensionBox
from tundish.desktop.drawn import Drawn
from tundish.desktop.frame_settings import FrameSettings
from tundish.desktop.job_line import FINISH
from tundish.desktop.live import Sight, looked_at, sight_of
from tundish.desktop.mover import Mover, Scene
from tundish.desktop.moves import Size, Thing
from tundish.desktop.page import Page
from tundish.desktop.rod_view import Rod, heights
from tundish.desktop.setting_tools import SettingTools
from tundish.desktop.spoken import Speaker
from tundish.desktop.started import add_appliance, add_hatch, add_niche, add_noggin, add_towel_rail
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.documents.drawing import Dimension
from tundish.documents.rod import rod
from tundish.documents.wall_drawing import view_height
from tundish.estimate import Job
from tundish.field import get, put
from tundish.layout.room import Room
from tundish.session import Step

ROOM: Final = "Whole room, from above"
HEAD: Final = 36
"""Height of the row over the drawing, pixels."""
STILL_MS: Final = 700
"""A movement is over when nothing moved for so long: then it is told to a screen reader."""


class SettingOutPage(Page):
    """The wall to scale with its rod: pieces are chosen, moved, typed, added and removed here."""

    help_sentences = (
        "Tab walks the pieces. Arrows move the chosen one 1 mm, with Shift 10 mm; or Space picks it up, and puts it down.",
        "Type digits for its place from the left; D steps to its height and gaps; with nothing chosen, to the pre-wall's top and depth.",
        "Ins adds, Del removes. Plus, minus and the wheel zoom, Ctrl and an arrow pan, Home shows all. Alt held: nothing pulls.",
        "A dimension that is pressed can be typed into.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Setting out", "What goes where, and how high?")
        self._workspace = workspace
        self._asked = self._wanted = ""
        self._was: dict[str, str] = {}
        self._was_job: Job | None = None
        self._sight: Sight | None = None
        self.tools = SettingTools(self)
        self.view, self.rod = DrawingView("Wall A, looking at it"), Rod()
        self.frame, self.moves = FrameSettings(), AsYouMove()
        self._drawn = Drawn(self.view, self.tools)
        self.mover = Mover(workspace, self.view, self.tools, self._scene)
        self.walls = ChipRow("Pre-walls of the room")
        self.box = DimensionBox(self.view.viewport())
        self._caption, self._remove = label("", "tableStrong"), button("Remove", "cross")
        self._speaker, self._still = Speaker(self), QTimer(self)
        self._still.setSingleShot(True)
        self._still.setInterval(STILL_MS)
        for tool in self.tools.buttons:
            self.add_tool(tool)
        self.set_body(self._card())
        self._connect()
        self._draw()

    def _card(self) -> QWidget:
        card = QFrame()
        card.setProperty("kind", "card")
        wall, side, row, head = QVBoxLayout(), QVBoxLayout(), QHBoxLayout(card), QHBoxLayout()
        row.setContentsMargins(12, 4, 10, 8)
        row.setSpacing(6)
        head.addWidget(self._caption)
        head.addWidget(self.walls, 1)
        head.addStretch(0)
        head.addWidget(self._remove)
        head.addStrut(HEAD)
        wall.setSpacing(2)
        wall.addLayout(head)
        wall.addWidget(self.view, 1)
        side.setSpacing(8)
        side.addWidget(self.rod, 1)
        side.addWidget(self.frame)
        side.addWidget(self.moves)
        row.addLayout(wall, 1)
        row.addLayout(side)
        return card

    def _connect(self) -> None:
        workspace, view, tools = self._workspace, self.view, self.tools
        self.follow(workspace.estimate_ready, self._worked_out)
        self.follow(workspace.tried, self._moved)
        workspace.job_changed.connect(self._changed)
        for signal in (workspace.job_opened, workspace.job_closed, workspace.room_changed):
            signal.connect(self._leave_piece)
            signal.connect(view.fit)
        for signal in (workspace.floor_changed, tools.show_changed, tools.whole_toggled, view.resized):
            signal.connect(self._draw)
        view.chosen.connect(self._choose)
        view.come_back.connect(self._ask_again)
        view.opened.connect(lambda _: self._open_box(0, ""))
        view.figure_asked.connect(self._figure_pressed)
        view.dimension_pressed.connect(self._type_into)
        self.mover.moved.connect(self._ask_moved)
        view.typed.connect(lambda digits: self._open_box(0, digits))
        view.dimension_stepped.connect(self._step_to_size)
        view.add_asked.connect(tools.offer)
        view.remove_asked.connect(self._remove_piece)
        view.view_moved.connect(self._align)
        view.measured.connect(self._say_measured)
        view.tape_left.connect(lambda: tools.tape.setChecked(False))
        for part in (self.rod, self.frame):
            part.figure_asked.connect(self._figure_pressed)
        self.box.typed.connect(self._set_size)
        self.box.closed.connect(view.setFocus)
        self.walls.chosen.connect(lambda place: workspace.choose_wall(int(place)))
        tools.add_asked.connect(self._add_one)
        tools.prewall_asked.connect(self._add_prewall)
        tools.tape_toggled.connect(self._take_tape)
        self._remove.clicked.connect(lambda: self._remove_piece(view.piece()))
        self._still.timeout.connect(self._tell_moved)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._align()

    def first_box(self) -> QWidget:
        """The keyboard starts in the drawing."""
        return self.view

    def room(self) -> Room | None:
        """The pre-wall looked at, of the job as it is shown: worked out at once where the estimate is still to come."""
        self._sight = sight_of(self._workspace, self._sight)
        return looked_at(self._workspace, self._sight)

    def _draw(self) -> None:
        room = self.room()
        if room is None or self._sight is None:
            self.view.show_drawing(NOTHING)
            self.rod.show_heights((), self._workspace.floor, "", "")
            self._show_head(None)
            return
        self._drawn.show(room, self._sight, self._workspace.book, finish=self._workspace.floor == FINISH)
        if not self.view.holds():
            self.view.describe(moves.said(room, self.view.drawing().pieces))
        self._show_head(room)
        self.rod.setVisible(not self.tools.whole.isChecked())
        self._show_rod(room)

    def _show_head(self, room: Room | None) -> None:
        rooms = self._sight.rooms if self._sight is not None and room is not None else ()
        words = ROOM if self.tools.whole.isChecked() else f"Wall {room.wall}, looking at it" if room else ""
        self._caption.setText(words)
        self.view.setAccessibleName(words)
        several = len(rooms) > 1
        self._caption.setVisible(not several)
        self.walls.setVisible(several)
        choices = tuple(Choice(str(place), each) for place, each in enumerate(prewalls.prewall_words(rooms)))
        self.walls.set_choices(choices, str(self._workspace.wall_place))
        thing = self._thing()
        self._remove.setText(f"Remove {thing.name}" if thing else "Remove this pre-wall")
        self._remove.setAccessibleName(self._remove.text())
        self._remove.setVisible(thing is not None or several)

    def _show_rod(self, room: Room) -> None:
        thing = self._thing()
        rows = heights(rod(room), room.finished_floor.value)
        self.rod.show_heights(rows, self._workspace.floor, thing.key if thing else "-", self._asked)
        if not self.moves.isVisible():  # beneath it there is no room for both
            below = self.view.viewport().height() - (0 if self.rod.isHidden() else round(self.view.placed().base))
            self.frame.show_frame(next((each for each in room.placed if thing is not None and each.key == thing.key), None), below)
        self._align()

    def _align(self) -> None:
        room = self.room()
        self.walls.make_room(self._remove, self.view.width())
        if room is not None and self.isVisible():
            placed = self.view.placed()
            base = self.view.viewport().mapTo(self, QPoint(0, 0)).y() + placed.base - self.rod.mapTo(self, QPoint(0, 0)).y()
            self.rod.align(base, placed.scale, view_height(room))

    def _worked_out(self) -> None:
        room = self.room()
        if self._wanted or room is None or not self._drawn.already(room, self._workspace.book):
            self._draw()
        if self._wanted:
            found = next((each for each in self._things() if self._wanted in {each.name, each.key}), None)
            self._wanted = ""
            if found is not None:
                self.view.choose(found.key)
                self._choose(found.key)
                self.view.setFocus()
        estimate, thing = self._workspace.estimate, self._thing()
        still = not self._workspace.trying
        if still and thing is not None and estimate is not None and (not self._was or estimate.job is self._was_job):
            # The same job, perhaps with better cut plans: what was is what is now.
            self._was, self._was_job = self._facts(thing), estimate.job
        self._show_moves()

    def _moved(self) -> None:
        self._draw()
        self._show_moves()

    def _show_moves(self) -> None:
        thing, room, before = self._thing(), self.room(), self.moves.isVisible()
        if thing is None or not self._was:
            self.moves.hide()
            return
        self.moves.show_move(thing.name, self._was, self._facts(thing))
        if self.moves.rows():
            self.frame.hide()
            self._still.start()
        elif before and room is not None:
            self._show_rod(room)

    def _facts(self, thing: Thing) -> dict[str, str]:
        room, estimate = self.room(), self._workspace.estimate
        price = estimate.price.total if estimate else Decimal(0)
        return facts(price, room, thing, self._sight.findings) if room is not None and self._sight is not None else {}

    def _tell_moved(self) -> None:
        if words := self.moves.sentence():
            self._speaker.say(words)

    def _leave_piece(self) -> None:
        self.mover.forget()
        self.view.choose("")
        self._asked, self._was = "", {}
        self.moves.hide()
        self._draw()

    def _changed(self, step: Step) -> None:
        """Any change is seen at once."""
        self.mover.changed(step.path)
        if self.isVisible():
            self._moved()

    def _things(self) -> tuple[Thing, ...]:
        room = self.room()
        return moves.things(room) if room is not None else ()

    def _thing(self, piece: str | None = None) -> Thing | None:
        """What a piece, the chosen one unless another is named, is or belongs to; None for what follows from others."""
        room, named = self.room(), self.view.piece() if piece is None else piece
        return moves.thing_of(room, named) if room is not None else None

    def _scene(self) -> Scene | None:
        room = self.room()
        return Scene(room, self._sight.findings) if room is not None and self._sight is not None else None

    def _choose(self, piece: str) -> None:
        """Show what belongs to the piece chosen, and ask where it is from; one of another pre-wall brings that wall."""
        place, _, other = piece.partition("/")
        if other and place.isdecimal():
            self._workspace.choose_wall(int(place))
            piece = other
            self.view.choose(piece)
        self._pick(piece)
        room = self.room()
        if room is not None and (key := moves.figure_of(room, piece)):
            self._ask(key)

    def _ask_again(self, piece: str) -> None:
        """The keyboard is on the drawing again: what was asked about last is."""
        room = self.room()
        if room is not None and (key := self._asked or moves.figure_of(room, piece)):
            self._ask(key)

    def _pick(self, piece: str) -> None:
        self.mover.let_go()
        self.box.close_box()
        thing, estimate = self._thing(piece), self._workspace.estimate
        self._was = self._facts(thing) if thing is not None and estimate is not None else {}
        self._was_job = estimate.job if estimate else None
        self.moves.hide()
        room = self.room()
        self._show_head(room)
        if room is not None:
            self._show_rod(room)

    def _ask(self, key: str) -> None:
        self._asked = key
        self.figure_asked.emit(key if key.startswith("input:") else f"figure:{key}")
        room = self.room()
        if room is not None:
            self._show_rod(room)

    def _figure_pressed(self, key: str) -> None:
        """A figure was pressed: its piece is chosen, so that it can be typed over."""
        thing = self._thing(key.partition(".")[0])
        if thing is not None and thing.key != self.view.piece():
            self.view.choose(thing.key)
            self._pick(thing.key)
        self._ask(key)

    def _ask_moved(self, path: str) -> None:
        thing = self._thing()
        if thing is not None and path.startswith(f"{thing.path}."):
            size = path.removeprefix(f"{thing.path}.")
            self._ask(f"{thing.key}.{size}" if size in {"centre", "top"} else f"input:{path}")

    def _open_box(self, place: int, digits: str) -> None:
        thing = self._thing()
        if thing is not None:
            self.box.open_at(self.view.box_of(thing.key), thing.sizes, place, digits)

    def _step_to_size(self, piece: str) -> None:
        """D: the second size of the piece chosen; with none chosen, the top and the depth of the pre-wall."""
        room = self.room()
        if piece or room is None:
            self._open_box(1, "")
        else:
            sizes = moves.prewall_sizes(room, finish=self._workspace.floor == FINISH)
            self.box.open_at(QRectF(self.view.viewport().rect()), sizes, 0, "")

    def _type_into(self, mark: Dimension) -> None:
        """A dimension was pressed: what it shows can be typed."""
        room = self.room()
        ends = (mark.x1, mark.x2) if mark.y1 == mark.y2 else (mark.y1, mark.y2)
        low, high = min(ends), max(ends)
        size = moves.size_of(room, mark.figure, (low, high), finish=self._workspace.floor == FINISH) if room is not None else None
        if size is not None:
            placed = self.view.placed()
            around = QRectF(placed.point(mark.x1, mark.y1), placed.point(mark.x2, mark.y2)).normalized()
            self.box.open_at(around, (size,), 0, "")

    def _set_size(self, size: Size, words: str) -> None:
        entry, problem = moves.taken(self._workspace.job, size, words)
        if entry is not None:
            problems = self._workspace.set(size.path, entry)
            problem = problems[0].text if problems else ""
        if problem:
            self.box.show_problem(problem)
            return
        self.mover.changed("")
        self.box.close_box()
        self._ask_moved(size.path)

    def _take_tape(self, out: bool) -> None:
        self.view.take_tape(out=out)
        self.view.setFocus()

    def _say_measured(self, words: str) -> None:
        """What the tape says stands over the drawing in the place of its name."""
        self._show_head(self.room())
        if words:
            self.walls.hide()
            self._caption.setText(words)
            self._caption.show()
        self.view.setAccessibleDescription(words)

    def _add_one(self, kind: str) -> None:
        if self._workspace.job.rooms:
            makers = {"niche": add_niche, "hatch": add_hatch, "noggin": add_noggin, "towel rail": add_towel_rail}
            self._wanted = makers[kind](self._workspace) if kind in makers else add_appliance(self._workspace, kind)

    def _add_prewall(self, kind: str) -> None:
        room, path = self.room(), f"{self._workspace.room_path}.design"
        if room is None:
            return
        design = prewalls.with_prewall(get(self._workspace.job, path), kind, room)
        if design is None:
            self._workspace.said.emit("A room has six pre-walls at most.")
            return
        if self._workspace.edit(f"add {dict(prewalls.ADDED)[kind].lower()}", put(self._workspace.job, path, design), path):
            self._workspace.choose_wall(len(design.further))

    def _remove_piece(self, piece: str) -> None:
        thing, path = self._thing(piece), f"{self._workspace.room_path}.design"
        if thing is not None:
            listed, _, place = thing.path.rpartition(".")
            self._workspace.remove(listed, int(place), f"remove {thing.name}")
        elif not piece and (room := self.room()) is not None:
            after = prewalls.prewall_out(self._workspace.job, path, room.place)
            gone, self._workspace.wall_place = f"remove pre-wall at wall {room.wall}", 0
            self._workspace.edit(gone, after, path)
