"""A paper handed to the user's own mail program, with its file where the desktop can do that. This program itself sends nothing."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Final
from urllib.parse import quote

from PySide6.QtCore import QObject, QProcess, QUrl, Signal
from PySide6.QtGui import QDesktopServices

from tundish.writers.safe import one_line

TOOL: Final = "xdg-email"
"""What opens the mail program of a free desktop with a file attached (xdg-utils)."""


@dataclass(frozen=True, slots=True)
class Letter:
    """A message to be begun: to whom, or "" where that is not known, its subject and words, and the file that goes with it."""

    to: str
    subject: str
    words: str
    file: Path


class Mailing(QObject):
    """One letter handed over. `told` says what became of it, and always where the file is."""

    told = Signal(str)

    def __init__(self, letter: Letter, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.letter = letter
        self._process = QProcess(self)
        self._process.finished.connect(self._ended)
        self._process.errorOccurred.connect(self._failed)

    def start(self) -> None:
        """Open the mail program; the user reads the letter there and sends it."""
        tool = shutil.which(TOOL)
        if tool is None:
            self._by_link()
            return
        self._process.start(tool, arguments(self.letter))
        file = self.letter.file
        self.told.emit(f"Your mail program is asked to open with {file.name} attached. If it is not there, attach it from {file.parent}")

    def _ended(self, code: int, status: QProcess.ExitStatus) -> None:
        if code or status is not QProcess.ExitStatus.NormalExit:
            self._by_link()

    def _failed(self, why: QProcess.ProcessError) -> None:
        if why is QProcess.ProcessError.FailedToStart:
            self._by_link()

    def _by_link(self) -> None:
        """Begin the letter by a link, which cannot carry a file, and show the file's folder."""
        file = self.letter.file
        begun = QDesktopServices.openUrl(QUrl(link(self.letter)))
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(file.parent)))
        if begun:
            self.told.emit(f"A letter is begun in your mail program. It takes no file from here: attach {file.name} from {file.parent}")
        else:
            self.told.emit(f"No mail program could be opened. {file.name} is in {file.parent}")


def arguments(letter: Letter) -> list[str]:
    """What the desktop's tool is given; an address can never be taken for one of its options."""
    return [
        *("--utf8", "--subject", one_line(letter.subject), "--body", letter.words),
        *("--attach", str(letter.file), f"mailto:{quote(one_line(letter.to), safe='@')}"),
    ]


def link(letter: Letter) -> str:
    """The letter without its file as a mailto link (RFC 6068)."""
    words = letter.words.replace("\n", "\r\n")
    return f"mailto:{quote(one_line(letter.to), safe='@')}?subject={quote(one_line(letter.subject))}&body={quote(words)}"
