"""Photographs of a room in a form: added from files or dropped here, seen small, each with what it shows and when it was taken."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

import shiboken6
from PySide6.QtCore import QMimeData, QRect, QSize, Qt
from PySide6.QtGui import QDragEnterEvent, QDragLeaveEvent, QDropEvent, QImage, QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QSizePolicy, QWidget

from tundish.desktop import look
from tundish.desktop.painted import IconButton, panel, pen, write
from tundish.desktop.words import button, label
from tundish.errors import TundishError
from tundish.field import NoSuchInputError, get, put
from tundish.store.photographs import key_of
from tundish.survey.shape import Photograph

if TYPE_CHECKING:
    from tundish.desktop.inputs import InputForm
    from tundish.desktop.picture_files import Taken
    from tundish.desktop.workspace import Workspace

LISTED: Final = "survey.photographs"
FOLDER: Final = "photograph folder"
"""The setting that keeps the folder photographs were last taken from."""
SIDE: Final = 150
"""Height of a small picture, pixels at 100 %."""
MOST_AT_ONCE: Final = 60
MOST_SAID: Final = 3
INPUTS: Final = ("note", "of", "when")


@dataclass(frozen=True, slots=True)
class _Read:
    """What became of some files: pictures, and why others were left."""

    pictures: tuple[Taken, ...]
    left: tuple[str, ...]


def add_to(form: InputForm, workspace: Workspace) -> None:
    """Fill a form with the photographs of the chosen room, and a place to add more."""
    listed = f"{workspace.room_path}.{LISTED}"
    form.add_part(Adder(workspace))
    for place, each in enumerate(get(workspace.job, listed)):
        title = each.note or each.name or f"Photograph {place + 1}"
        head = form.add_group(f"Photograph {place + 1}", each.name)
        out = IconButton("cross", f"Take out photograph {place + 1}, {title}", small=True)
        out.clicked.connect(lambda _=False, place=place: workspace.remove(listed, place, f"take out photograph {place + 1}"))
        head.set_button(out)
        form.add_part(Small(workspace, each.picture, title))
        for name in INPUTS:
            form.input(f"{listed}.{place}.{name}")


def attach(workspace: Workspace, files: Iterable[Path], of: str = "on survey") -> None:
    """Keep picture files with the open job as photographs of the chosen room: one named step; what is left is said, and why."""
    paths, job_id, listed = tuple(files), workspace.job_id, f"{workspace.room_path}.{LISTED}"
    if not paths or not workspace.session:
        return

    def work() -> _Read:
        found = _read(paths)
        workspace.store.keep_photographs(job_id, {key_of(each.body): each.body for each in found.pictures})
        return found

    def take(found: _Read) -> None:
        if workspace.job_id == job_id:
            _put_in(workspace, listed, found.pictures, of)
        workspace.said.emit(_words(found))

    workspace.said.emit("Photographs are being read")
    workspace.aside.ask(work, take, workspace.said.emit)


class Adder(QWidget):
    """Adds photographs: by its button, or by dropping files on it."""

    def __init__(self, workspace: Workspace, of: str = "on survey") -> None:
        super().__init__()
        self._workspace, self._of = workspace, of
        self._over = False
        self.setAcceptDrops(True)
        self.setAccessibleName("Photographs can be dropped here")
        self.add = button("Add photographs", "camera")
        self.add.clicked.connect(self._choose)
        row = QHBoxLayout(self)
        row.setContentsMargins(22, 14, 22, 14)
        row.setSpacing(12)
        row.addWidget(self.add)
        row.addWidget(
            label("or drop picture files here. Lay a tape in the picture; where it was taken is not kept.", "note", "ink2", wrap=True), 1
        )

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if _files_in(event.mimeData()):
            self._show_over(over=True)
            event.acceptProposedAction()

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        self._show_over(over=False)
        super().dragLeaveEvent(event)

    def dropEvent(self, event: QDropEvent) -> None:
        self._show_over(over=False)
        event.acceptProposedAction()
        attach(self._workspace, _files_in(event.mimeData()), self._of)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        room = self.rect().adjusted(10, 6, -10, -6).toRectF()
        tone, fill = ("chalk", "chalkWash") if self._over else ("edge", "sheet")
        panel(painter, room, fill=look.colour(fill), edge=pen(tone, 2 if self._over else 1, dashed=True))

    def _choose(self) -> None:
        from tundish.desktop.picture_files import ENDINGS

        store = self._workspace.store
        folder = str(store.setting(FOLDER) or Path.home())
        kinds = f"Pictures ({' '.join(f'*.{each} *.{each.upper()}' for each in ENDINGS)})"
        names, _ = QFileDialog.getOpenFileNames(self, "Add photographs", folder, f"{kinds};;All files (*)")
        if names:
            store.keep_setting(FOLDER, str(Path(names[0]).parent))
            attach(self._workspace, [Path(name) for name in names], self._of)

    def _show_over(self, *, over: bool) -> None:
        self._over = over
        self.update()


class Small(QWidget):
    """A photograph, small; it is read beside the window, and says so where it cannot be shown."""

    def __init__(self, workspace: Workspace, key: str, title: str) -> None:
        super().__init__()
        self.picture: QPixmap | None = None
        self._words = "Being read"
        self.setAccessibleName(f"{title}, picture")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        store, job_id, side = workspace.store, workspace.job_id, look.now().px(SIDE) * 2
        workspace.aside.ask(lambda: _image(store.photograph(job_id, key), side), self._take, self._say)

    def sizeHint(self) -> QSize:
        return QSize(look.now().px(200), look.now().px(SIDE + 12))

    def paintEvent(self, _event: QPaintEvent) -> None:
        px, painter = look.now().px, QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        room = QRect(px(14), px(6), self.width() - px(28), px(SIDE))
        if self.picture is None:
            write(painter, room, self._words, "note", "ink2")
            return
        size = self.picture.size().scaled(room.size(), Qt.AspectRatioMode.KeepAspectRatio)
        painter.drawPixmap(QRect(room.topLeft(), size), self.picture)

    def _take(self, image: QImage | None) -> None:
        # The form may have been built again while the picture was read.
        if not shiboken6.isValid(self):
            return
        if image is None:
            self._say("The picture is not kept with this job, or is damaged: take it out and add it again.")
        else:
            self.picture = QPixmap.fromImage(image)
            self.update()

    def _say(self, words: str) -> None:
        if shiboken6.isValid(self):
            self._words = words
            self.setAccessibleDescription(words)
            self.update()


def _image(body: bytes | None, side: int) -> QImage | None:
    from tundish.desktop.picture_files import shown

    return shown(body, side) if body else None


def _read(paths: Sequence[Path]) -> _Read:
    from tundish.desktop.picture_files import from_file

    pictures: list[Taken] = []
    left: list[str] = []
    for path in paths[:MOST_AT_ONCE]:
        try:
            pictures.append(from_file(path))
        except TundishError as fault:
            left.append(str(fault))
    if len(paths) > MOST_AT_ONCE:
        left.append(f"Only {MOST_AT_ONCE} are taken at once: add the other {len(paths) - MOST_AT_ONCE} after them.")
    return _Read(tuple(pictures), tuple(left))


def _put_in(workspace: Workspace, listed: str, pictures: Sequence[Taken], of: str) -> None:
    try:
        before: tuple[Photograph, ...] = get(workspace.job, listed)
    except NoSuchInputError:
        return
    made = tuple(Photograph(picture=key_of(each.body), name=each.name, of=of, when=each.day) for each in pictures)
    new = tuple(each for each in made if each.picture not in {one.picture for one in before})
    if new:
        label_ = f"add {_counted(len(new))}"
        workspace.edit(label_, put(workspace.job, listed, (*before, *new)), listed)


def _words(found: _Read) -> str:
    said = list(found.left[:MOST_SAID])
    if len(found.left) > MOST_SAID:
        said.append(f"And {len(found.left) - MOST_SAID} more could not be taken.")
    if found.pictures:
        said.insert(0, f"Kept: {_counted(len(found.pictures))}." if said else f"Kept: {_counted(len(found.pictures))}")
    return " ".join(said)


def _counted(count: int) -> str:
    return f"{count} photographs" if count > 1 else "a photograph"


def _files_in(dropped: QMimeData) -> tuple[Path, ...]:
    return tuple(Path(each.toLocalFile()) for each in dropped.urls() if each.isLocalFile())
