"""The trader's logo in Settings: chosen from a file or taken away, and the head of a paper as it will be printed with it."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from PySide6.QtGui import QImage, QPixmap, QResizeEvent
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QLabel, QSizePolicy, QWidget

from tundish.desktop import look
from tundish.desktop.pdf_pages import bytes_of, picture, pictures_of
from tundish.desktop.preview import A4_WIDE_MM
from tundish.desktop.words import button
from tundish.desktop.workspace import Workspace
from tundish.documents.block import Document
from tundish.documents.paper import UNNAMED
from tundish.store import logo

WIDE: Final = 540
"""Of the head as it is shown, pixels at 100 %; less where there is no room."""
HEAD: Final = (10, 10, 190, 15)
"""Left, top, width and height of the head on an A4 page, mm."""


class Logo(QLabel):
    """The head of a paper as it will be printed; `tools` choose the logo in it. Drawn as wide as there is room, and when asked to."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        self._workspace = workspace
        self._turn = 0
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.choose, self.away = button("Choose a picture", "camera"), button("Take logo away", "cross")
        self.choose.setAccessibleDescription("The logo that stands at the head of every paper")
        self.choose.clicked.connect(self._choose)
        self.away.clicked.connect(self._take_away)
        self.tools = QWidget()
        row = QHBoxLayout(self.tools)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self.choose)
        row.addWidget(self.away)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.draw()

    def draw(self) -> None:
        """Show the head again as papers have it now."""
        self._turn += 1
        turn, store = self._turn, self._workspace.store
        scale = self.devicePixelRatioF()
        wide, paper = round(min(look.now().px(WIDE), self.width()) * scale * A4_WIDE_MM / HEAD[2]), self._paper()
        pictures = pictures_of(store, self._workspace.job_id)

        def work() -> tuple[QImage, bool]:
            page = picture(bytes_of(paper, "", pictures), 0, wide).image
            return page.copy(*(round(each * wide / A4_WIDE_MM) for each in HEAD)), logo.kept(store) is not None

        def take(drawn: tuple[QImage, bool]) -> None:
            if turn == self._turn:
                image, there = drawn
                shown = QPixmap.fromImage(image)
                shown.setDevicePixelRatio(scale)
                self.setPixmap(shown)
                self.away.setEnabled(there)
                self.setAccessibleName(f"Head of a paper: {paper.sender}, {paper.trade}, {'with your logo' if there else 'no logo'}")

        self._workspace.aside.ask(work, take, self._workspace.said.emit)

    def _paper(self) -> Document:
        trader = self._workspace.book.trader
        name = trader.name or UNNAMED
        return Document("quote", "Quote", "", "Job, client, what is done", name, trader.trade, "Quote", "", (), colour=trader.colour)

    def _choose(self) -> None:
        from tundish.desktop.picture_files import ENDINGS

        kinds = f"Pictures ({' '.join(f'*.{each} *.{each.upper()}' for each in ENDINGS)})"
        chosen, _ = QFileDialog.getOpenFileName(self, "Choose your logo", "", kinds)
        if chosen:
            self.take(Path(chosen))

    def take(self, path: Path) -> None:
        """Take the picture in a file as the logo; a file that is none is said, and the logo before it stays."""
        store = self._workspace.store

        def work() -> None:
            from tundish.desktop.picture_files import from_file

            logo.keep(store, from_file(path).body)

        self._workspace.aside.ask(
            work, lambda _: self._changed(f"{path.name} stands at the head of every paper"), self._workspace.said.emit
        )

    def _take_away(self) -> None:
        logo.keep(self._workspace.store, b"")
        self._changed("Papers have no logo")

    def _changed(self, words: str) -> None:
        self._workspace.book_has_changed()
        self.draw()
        self._workspace.said.emit(words)
