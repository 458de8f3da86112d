"""Setting out: what goes where, and how high?"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from PySide6.QtCore import QPoint
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QMenu, QVBoxLayout, QWidget

from tundish.desktop import moves
from tundish.desktop.as_you_move import AsYouMove, facts
from tundish.desktop.canvas.view import NOTHING, DrawingView
from tundish.desktop.dimension_box import DimensionBox
from tundish.desktop.job_line import FINISH
from tundish.desktop.menu_button import MenuButton
from tundish.desktop.moves import Size
from tundish.desktop.page import Page
from tundish.desktop.rod_view import Rod, heights
from tundish.desktop.started import add_appliance
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.documents.plan_drawing import whole_room
from tundish.documents.rod import rod
from tundish.documents.wall_drawing import Show, frame_key, view_height
from tundish.documents.wall_sheet import plan_line, wall_sheet
from tundish.estimate import Job
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Placed, Room
from tundish.session import Step

LAYERS: Final = (("tiles", "Tiles"), ("steel", "Frames, steel and timber"), ("pipes", "Pipes"), ("ware", "Ware"))
WALL: Final = "Wall A, looking at it"
ROOM: Final = "Whole room, from above"


class SettingOutPage(Page):
    """The wall to scale with its rod: pieces are chosen, moved, typed, added and removed here."""

    help_sentences = (
        "Tab walks the pieces. Arrows move the chosen one 1 mm, with Shift 10 mm.",
        "Type digits for its place from the left wall; D steps to its height and its gaps.",
        "Ins adds, Del removes. Plus and minus zoom, Home shows all.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Setting out", "What goes where, and how high?")
        self._workspace = workspace
        self._show = Show()
        self._asked = self._nudged_path = self._wanted_name = ""
        self._was: dict[str, str] = {}
        self._was_job: Job | None = None
        self.view, self.rod, self.moves = DrawingView(WALL), Rod(), AsYouMove()
        self.box = DimensionBox(self.view.viewport())
        self._caption = label(WALL, "tableStrong")
        self._add_tools()
        self.set_body(self._card())
        self._connect()
        self._draw()

    def _add_tools(self) -> None:
        self._add, self._layers = MenuButton("Add", "add", main=True), MenuButton("Show", "frame")
        self._remove, self._whole = button("Remove", "cross"), button("Whole room", "fit")
        self._whole.setCheckable(True)
        adds, layers = QMenu("Add", self._add), QMenu("Show", self._layers)
        for kind, words in ((each.key, each.title) for each in KINDS.values()):
            adds.addAction(words).setData(kind)
        for layer, words in LAYERS:
            action = layers.addAction(words)
            action.setCheckable(True)
            action.setChecked(True)
            action.setData(layer)
        self._add.setMenu(adds)
        self._layers.setMenu(layers)
        for tool in (self._add, self._remove, self._layers, self._whole):
            self.add_tool(tool)

    def _card(self) -> QWidget:
        card = QFrame()
        card.setProperty("kind", "card")
        wall, side, row = QVBoxLayout(), QVBoxLayout(), QHBoxLayout(card)
        row.setContentsMargins(12, 4, 10, 8)
        row.setSpacing(6)
        self._caption.setFixedHeight(26)
        wall.addWidget(self._caption)
        wall.addWidget(self.view, 1)
        side.setSpacing(8)
        side.addWidget(self.rod, 1)
        side.addWidget(self.moves)
        row.addLayout(wall, 1)
        row.addLayout(side)
        return card

    def _connect(self) -> None:
        workspace, view = self._workspace, self.view
        workspace.estimate_ready.connect(self._worked_out)
        workspace.job_opened.connect(self._leave_piece)
        workspace.job_closed.connect(self._leave_piece)
        workspace.room_changed.connect(self._leave_piece)
        workspace.job_changed.connect(self._changed)
        workspace.floor_changed.connect(self._draw)
        view.chosen.connect(self._choose)
        view.opened.connect(lambda _: self._open_box(0, ""))
        view.figure_asked.connect(self._figure_pressed)
        view.nudged.connect(self._nudge)
        view.dropped.connect(self._drop)
        view.typed.connect(lambda digits: self._open_box(0, digits))
        view.dimension_stepped.connect(lambda _: self._open_box(1, ""))
        view.add_asked.connect(self._offer)
        view.remove_asked.connect(self._remove_piece)
        view.view_moved.connect(self._align)
        self.rod.figure_asked.connect(self._figure_pressed)
        self.box.typed.connect(self._set_size)
        self.box.closed.connect(view.setFocus)
        self._add.menu().triggered.connect(lambda action: self._add_one(str(action.data())))
        self._layers.menu().triggered.connect(lambda action: self._show_layer(str(action.data()), shown=action.isChecked()))
        self._remove.clicked.connect(lambda: self._remove_piece(view.piece()))
        self._whole.toggled.connect(self._draw)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._align()

    def _draw(self) -> None:
        room, estimate = self._workspace.room, self._workspace.estimate
        whole = self._whole.isChecked()
        self._caption.setText(ROOM if whole else WALL)
        self.view.setAccessibleName(self._caption.text())
        self.rod.setVisible(not whole)
        if room is None or estimate is None:
            self.view.show_drawing(NOTHING)
            self.rod.show_heights((), self._workspace.floor, "", "")
            return
        show = replace(self._show, finish=self._workspace.floor == FINISH)
        drawn = whole_room if whole else wall_sheet
        self.view.show_drawing(drawn(room, show, estimate.findings))
        self._show_rod(room)

    def _show_rod(self, room: Room) -> None:
        placed = self._placed()
        rows = heights(rod(room), room.finished_floor.value)
        self.rod.show_heights(rows, self._workspace.floor, placed.key if placed else "-", self._asked)
        self._remove.setEnabled(placed is not None)
        self._align()

    def _align(self) -> None:
        room = self._workspace.room
        if room is not None and self.isVisible():
            placed = self.view.placed()
            base = self.view.viewport().mapTo(self, QPoint(0, 0)).y() + placed.base - self.rod.mapTo(self, QPoint(0, 0)).y()
            self.rod.align(base, placed.scale, view_height(room))

    def _worked_out(self) -> None:
        self._draw()
        room, estimate = self._workspace.room, self._workspace.estimate
        if self._wanted_name and room is not None:
            found = next((each for each in room.placed if each.name == self._wanted_name), None)
            self._wanted_name = ""
            if found is not None:
                self.view.choose(found.key)
                self._choose(found.key)
        placed = self._placed()
        if placed is not None and room is not None and estimate is not None:
            now = facts(estimate, room, placed)
            if not self._was or estimate.job is self._was_job:
                # The same job, perhaps with better cut plans: what was is what is now.
                self._was, self._was_job = now, estimate.job
            self.moves.show_move(placed.name, self._was, now)
        else:
            self.moves.hide()

    def _leave_piece(self) -> None:
        self.view.choose("")
        self._asked, self._was = "", {}
        self.moves.hide()
        self._draw()

    def _changed(self, step: Step) -> None:
        """A run of arrow presses ends with any other step."""
        if step.path != self._nudged_path:
            self._nudged_path = ""

    def _placed(self, piece: str | None = None) -> Placed | None:
        """The appliance that a piece, the chosen one unless another is named, is or belongs to."""
        room, named = self._workspace.room, self.view.piece() if piece is None else piece
        return next((each for each in room.placed if named in {each.key, frame_key(each)}), None) if room and named else None

    def _choose(self, piece: str) -> None:
        """Show what belongs to the piece chosen, and ask where it is from."""
        self._pick(piece)
        key = self._figure_of(piece)
        if key:
            self._ask(key)

    def _pick(self, piece: str) -> None:
        room, estimate, placed = self._workspace.room, self._workspace.estimate, self._placed(piece)
        self.box.close_box()
        self._nudged_path = ""
        self._was = facts(estimate, room, placed) if placed and room and estimate else {}
        self._was_job = estimate.job if estimate else None
        self.moves.hide()
        if room is not None:
            self._show_rod(room)

    def _figure_of(self, piece: str) -> str:
        """The figure that says where a piece is, or how long."""
        room, placed = self._workspace.room, self._placed(piece)
        if room is None or not piece:
            return ""
        if placed is not None:
            return f"{placed.key}.centre" if piece == placed.key else f"{placed.key}.frame_top"
        pipe = next((each for each in room.pipes if each.key == piece), None)
        if pipe is not None:
            return f"{pipe.serves}.fall" if pipe.rise is not None and pipe.kind in {"soil", "waste"} else pipe.pieces[0][0]
        return piece

    def _ask(self, key: str) -> None:
        self._asked = key
        self.figure_asked.emit(f"figure:{key}")
        if self._workspace.room is not None:
            self._show_rod(self._workspace.room)

    def _figure_pressed(self, key: str) -> None:
        """A figure was pressed: its piece is chosen, so that it can be typed over."""
        placed = self._placed(key.partition(".")[0])
        if placed is not None and placed.key != self.view.piece():
            self.view.choose(placed.key)
            self._pick(placed.key)
        self._ask(key)

    def _nudge(self, piece: str, right: float, up: float) -> None:
        """Move by a key: along the wall, or up and down; a run of presses is one step."""
        placed, room = self._placed(piece), self._workspace.room
        if placed is None or room is None:
            self._workspace.said.emit("This follows from what hangs on the wall: move an appliance.")
            return
        path, value = self._from(placed, room, along=bool(right))
        joined = path == self._nudged_path
        self._nudged_path = path
        self._take(path, moves.moved(self._workspace.job, path, value + right + up), joined=joined)
        self._ask(f"{placed.key}.{'centre' if right else 'top'}")

    def _drop(self, piece: str, right: float, up: float) -> None:
        """Move by the mouse, one way only: the further one; what was held in the plan keeps its height."""
        placed, room = self._placed(piece), self._workspace.room
        if placed is None or room is None:
            return
        in_plan = self._whole.isChecked() or self.view.held_at().y() < plan_line(room, self._show)
        along = in_plan or abs(right) >= abs(up)
        path, value = self._from(placed, room, along=along)
        self._nudged_path = ""
        self._take(path, moves.moved(self._workspace.job, path, moves.snapped(value + (right if along else up))))

    def _from(self, placed: Placed, room: Room, *, along: bool) -> tuple[str, float]:
        """The input that a move changes, and its value now: as the job has it, which may be ahead of the figures shown."""
        size = moves.sizes(room, placed)[0 if along else 1]
        return size.path, moves.held(self._workspace.job, size)

    def _take(self, path: str, value: object, *, joined: bool = False) -> bool:
        problems = self._workspace.set(path, value, joined=joined)
        if problems:
            self._workspace.said.emit(problems[0].text)
        return not problems

    def _open_box(self, place: int, digits: str) -> None:
        placed, room = self._placed(), self._workspace.room
        if placed is not None and room is not None:
            self.box.open_at(self.view.box_of(placed.key), moves.sizes(room, placed), place, digits)

    def _set_size(self, size: Size, words: str) -> None:
        entry, problem = moves.taken(self._workspace.job, size, words)
        if entry is not None:
            problems = self._workspace.set(size.path, entry)
            problem = problems[0].text if problems else ""
        if problem:
            self.box.show_problem(problem)
            return
        self._nudged_path = ""
        self.box.close_box()
        placed = self._placed()
        if placed is not None:
            self._ask(f"{placed.key}.{size.path.rpartition('.')[2]}")

    def _offer(self) -> None:
        menu = self._add.menu()
        menu.popup(self._add.mapToGlobal(QPoint(0, self._add.height())))
        menu.setActiveAction(menu.actions()[0])

    def _add_one(self, kind: str) -> None:
        if self._workspace.job.rooms:
            self._wanted_name = add_appliance(self._workspace, kind)

    def _remove_piece(self, piece: str) -> None:
        placed = self._placed(piece)
        if placed is not None:
            listed, _, place = placed.path.rpartition(".")
            self._workspace.remove(listed, int(place), f"remove {placed.name}")

    def _show_layer(self, layer: str, *, shown: bool) -> None:
        self._show = replace(self._show, **{layer: shown})
        self._draw()
