"""Moving a piece of the wall: dragged, picked up and stepped, or nudged; each movement is one named step, or nothing after Escape."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal

from tundish.desktop import moves
from tundish.desktop.canvas.view import DrawingView
from tundish.desktop.holding import Holding, Pointer, Rest, along_wall
from tundish.desktop.setting_tools import SettingTools
from tundish.desktop.workspace import Workspace
from tundish.documents.wall_sheet import plan_line
from tundish.estimate import Job
from tundish.field import get, put
from tundish.layout.room import Room
from tundish.rules.rule import Finding

FOLLOWS = "This follows from what hangs on the wall: move an appliance."


@dataclass(frozen=True, slots=True)
class Scene:
    """What is looked at: the pre-wall and what was found about it."""

    room: Room
    findings: tuple[Finding, ...]


class Mover(QObject):
    """Between what a view says of a piece and the job."""

    moved = Signal(str)
    """The input that was changed."""

    def __init__(self, workspace: Workspace, view: DrawingView, tools: SettingTools, scene: Callable[[], Scene | None]) -> None:
        super().__init__(view)
        self._workspace, self._view, self._tools, self._scene = workspace, view, tools, scene
        self._holding: Holding | None = None
        self._by_keys = (0.0, 0.0)
        self._nudged_path = ""
        self._run_from = Job()
        view.nudged.connect(self._nudge)
        view.dragged.connect(self._drag)
        view.dropped.connect(self._drop)
        view.picked_up.connect(self._pick_up)
        view.put_down.connect(self._put_down)
        view.drag_left.connect(self.let_go)

    def let_go(self) -> None:
        """All is as it was before the piece was taken hold of; a run of arrow presses is over."""
        self._nudged_path = ""
        if self._holding is not None:
            self.forget()
            self._workspace.end_trial()

    def forget(self) -> None:
        """Hold nothing any more: what was held is gone."""
        self._holding = None
        self._view.let_go()

    def changed(self, path: str) -> None:
        """The job was changed at a path: a run of arrow presses ends with any other step."""
        if path != self._nudged_path:
            self._nudged_path = ""

    def _hold(self, piece: str) -> Holding | None:
        scene = self._scene()
        thing = moves.thing_of(scene.room, piece) if scene is not None else None
        if self._holding is None and scene is not None and thing is not None:
            self._holding = Holding(self._workspace.job, scene.room, thing, scene.findings, self._workspace.book)
            self._nudged_path = ""
            self._by_keys = (0.0, 0.0)
        return self._holding

    def _drag(self, piece: str, right: float, up: float) -> None:
        """Seen as it would be; nothing is kept yet."""
        rest = self._rest(piece, right, up)
        if rest is not None:
            self._view.say(rest.note)
            self._workspace.try_out(rest.job)

    def _drop(self, piece: str, right: float, up: float) -> None:
        rest = self._rest(piece, right, up)
        if rest is not None:
            self._keep(rest)

    def _rest(self, piece: str, right: float, up: float) -> Rest | None:
        """Where a piece that is dragged would rest; what is held in the plan keeps its height."""
        held = self._hold(piece)
        if held is None:
            return None
        axis = self._view.axis()
        if self._tools.whole.isChecked():
            right, axis = along_wall(held.room, right, up), "along"
        elif self._view.held_at().y() < plan_line(held.room, self._tools.show):
            axis = "along"
        return held.dragged(right, up, Pointer(axis, self._view.placed().scale, self._tools.grid, self._view.free()))

    def _pick_up(self, piece: str) -> None:
        if self._hold(piece) is None:
            self._view.let_go()
            self._workspace.said.emit(FOLLOWS)
        else:
            self._workspace.said.emit("Picked up: arrows or a press place it, Space puts it down, Esc puts it back.")

    def _put_down(self) -> None:
        if self._holding is not None:
            self._keep(self._holding.stepped(*self._by_keys))

    def _keep(self, rest: Rest) -> None:
        self.forget()
        self._workspace.try_out(rest.job)
        self._workspace.keep_trial(rest.step, rest.path)
        self.moved.emit(rest.path)

    def _nudge(self, piece: str, right: float, up: float) -> None:
        """Move by a key: along the wall, or up and down; a run of presses is one step."""
        if self._holding is not None:
            self._by_keys = (self._by_keys[0] + right, self._by_keys[1] + up)
            self._workspace.try_out(self._holding.stepped(*self._by_keys).job)
            return
        scene, job = self._scene(), self._workspace.job
        thing = moves.thing_of(scene.room, piece) if scene is not None else None
        if thing is None:
            self._workspace.said.emit(FOLLOWS)
            return
        size = thing.along if right else thing.up
        joined = size.path == self._nudged_path
        if not joined:
            self._run_from = job
        self._nudged_path = size.path
        entry = moves.moved(job, size.path, moves.held(job, size) + right + up)
        begun = get(self._run_from, size.path)
        by = entry.value - (begun.value if begun is not None else size.shown - right - up)
        self._workspace.edit(moves.step_words(thing, by, along=bool(right)), put(job, size.path, entry), size.path, joined=joined)
        self.moved.emit(size.path)
