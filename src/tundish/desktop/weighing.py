"""What a change of the rule book would do to the open job, shown before it is kept."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from tundish.catalogue.book import Book
from tundish.cutting.plan import Effort
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.documents.difference import differences
from tundish.estimate import estimate

MOST: Final = 6
"""Differences shown; what is left over is counted."""


class Weighing(QWidget):
    """The differences in words, with Keep it and Leave it. Where no job is open a change is kept at once."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        self._workspace = workspace
        self._keep: Callable[[], None] | None = None
        self._words = label("", "table", wrap=True)
        self._yes, self._no = button("Keep it", "tick", main=True), button("Leave it")
        self._yes.clicked.connect(self._kept)
        self._no.clicked.connect(self.leave)
        column, row = QVBoxLayout(self), QHBoxLayout()
        column.setContentsMargins(0, 4, 0, 4)
        row.addWidget(self._words, 1)
        row.addWidget(self._yes)
        row.addWidget(self._no)
        column.addLayout(row)
        self.hide()

    def weigh(self, book: Book, keep: Callable[[], None]) -> None:
        """Work the open job out with another book and show what differs; `keep` is done when it is wanted."""
        before = self._workspace.estimate
        if before is None or not before.job.rooms:
            keep()
            return
        self._keep = keep
        self._words.setText("Working out what it changes…")
        self._yes.setEnabled(False)
        self.show()
        job, now = before.job, self._workspace.book
        self._workspace.aside.ask(
            lambda: differences(estimate(job, now, Effort.BEST), estimate(job, book, Effort.BEST)),
            lambda found: self._show(keep, found),
            self._failed,
        )

    def leave(self) -> None:
        """Nothing is kept."""
        self._keep = None
        self.hide()

    def _show(self, keep: Callable[[], None], found: tuple[str, ...]) -> None:
        if self._keep is not keep:
            return
        more = len(found) - MOST
        left = (f"and {more} more before the price", found[-1]) if more > 0 else ()
        shown = (*found[: MOST - 1], *left) if more > 0 else found
        self._words.setText("On this job. " + "; ".join(shown) + "." if found else "It changes nothing on this job.")
        self._yes.setEnabled(True)
        self._yes.setFocus()

    def _failed(self, words: str) -> None:
        self._words.setText(words)

    def _kept(self) -> None:
        keep, self._keep = self._keep, None
        self.hide()
        if keep is not None:
            keep()
