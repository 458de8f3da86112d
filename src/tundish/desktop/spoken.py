"""Says a change aloud to a screen reader, politely: at most one sentence every two seconds, and the latest wins."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QObject, QTimer

PAUSE_MS: Final = 2_000


class Speaker(QObject):
    """Speaks for one window."""

    def __init__(self, window: QObject) -> None:
        super().__init__(window)
        self._window = window
        self._waiting = ""
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self._next)

    def say(self, words: str) -> None:
        """Say a sentence now, or when the pause after the last one is over; a later sentence takes its place."""
        self._waiting = words
        if not self._pause.isActive():
            self._next()

    def _next(self) -> None:
        if self._waiting:
            from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent

            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self._window, self._waiting))
            self._waiting = ""
            self._pause.start()
