"""The pictures and makers' sheets of an item: a button to open each, one to add, one to take away."""

from __future__ import annotations

from pathlib import Path
from tempfile import mkdtemp
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QSize, Qt, QUrl, Signal
from PySide6.QtGui import QDesktopServices, QImageReader
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QWidget

from tundish.desktop.words import button, label
from tundish.errors import TundishError

if TYPE_CHECKING:
    from tundish.store.item_files import ItemFile
    from tundish.store.keep import Store

LONGEST: Final = 1600
"""What the longer side of a kept picture has at most, pixels."""
MOST_READ_MB: Final = 256


class ItemPapers(QWidget):
    """What is kept with one item."""

    said = Signal(str)

    def __init__(self, store: Store) -> None:
        super().__init__()
        self._store, self._item = store, ""
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(12, 4, 12, 4)
        self._shown: list[QWidget] = []
        self._add = button("Add a file")
        self._add.clicked.connect(self._choose)
        self._row.addWidget(label("Pictures and sheets", "table", "ink2"))
        self._row.addWidget(self._add)
        self._row.addStretch(1)

    def show_item(self, item: str) -> None:
        """Show what is kept with an item; nothing for one that is not kept itself yet."""
        from tundish.store.item_files import attached

        self._item = item
        for old in self._shown:
            old.hide()
            old.deleteLater()
        self._shown = []
        for file in attached(self._store, item) if item else ():
            opens, goes = button(file.name, "paper"), button("×")
            goes.setAccessibleName(f"Take away {file.name}")
            opens.clicked.connect(lambda _=False, file=file: open_file(self._store, file))
            goes.clicked.connect(lambda _=False, file=file: self._take_away(file))
            self._shown += [opens, goes]
        for place, widget in enumerate(self._shown, 1):
            self._row.insertWidget(place, widget)
        self._add.setEnabled(bool(item))

    def add(self, path: Path) -> None:
        """Keep a picture, made smaller where it is large, or a PDF."""
        from tundish.store.item_files import attach

        try:
            body = path.read_bytes()
            attach(self._store, self._item, path.name, body if body.startswith(b"%PDF-") else as_kept(path) or body)
        except (OSError, TundishError) as fault:
            self.said.emit(str(fault))
            return
        self.show_item(self._item)

    def _choose(self) -> None:
        name, _ = QFileDialog.getOpenFileName(self, "Add a picture or a maker's sheet", "", "Pictures and PDF (*.jpg *.jpeg *.png *.pdf)")
        if name:
            self.add(Path(name))

    def _take_away(self, file: ItemFile) -> None:
        from tundish.store.item_files import detach

        detach(self._store, file.item, file.key)
        self.show_item(self._item)


def open_file(store: Store, file: ItemFile) -> None:
    """Open a kept file with whatever the system opens such files with."""
    from tundish.store.item_files import ENDINGS, body_of

    body = body_of(store, file.item, file.key)
    if body is not None:
        path = Path(mkdtemp(prefix="tundish-")) / f"{file.item}{ENDINGS[file.media]}"
        path.write_bytes(body)
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(path)))


def as_kept(path: Path) -> bytes | None:
    """A picture as the bytes of a JPEG of at most 1,600 pixels, upright; None where it is no picture."""
    reader = QImageReader(str(path))
    reader.setAutoTransform(True)
    reader.setAllocationLimit(MOST_READ_MB)
    size = reader.size()
    if max(size.width(), size.height()) > LONGEST:
        reader.setScaledSize(size.scaled(QSize(LONGEST, LONGEST), Qt.AspectRatioMode.KeepAspectRatio))
    image = reader.read()
    if image.isNull():
        return None
    made = QByteArray()
    buffer = QBuffer(made)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.convertToFormat(image.Format.Format_RGB32).save(buffer, "JPG", 88)  # type: ignore[call-overload]  # the stubs want bytes, Qt wants words
    return bytes(made.data())
