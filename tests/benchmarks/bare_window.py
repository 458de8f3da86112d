"""The yardstick: an empty window, and how long it took from the start of the process to the end of its first paint."""

from __future__ import annotations

import sys

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication, QMainWindow

from tundish.desktop.process import since_start_ms


class FirstPaint(QObject):
    """Prints the time and ends once the window has been painted."""

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802
        if event.type() == QEvent.Type.Paint:
            watched.removeEventFilter(self)
            QTimer.singleShot(0, self.finish)
        return super().eventFilter(watched, event)

    def finish(self) -> None:
        print(since_start_ms())
        QApplication.quit()


app = QApplication(["bare"])
window = QMainWindow()
first = FirstPaint()
window.installEventFilter(first)
window.resize(1366, 698)
window.show()
sys.exit(app.exec())
