"""Starting the window. Nothing heavy is brought in before it is painted: the database, the book and the job come after."""

from __future__ import annotations

import gc
import sys
from collections.abc import Sequence
from pathlib import Path
from types import TracebackType
from typing import Final

from PySide6.QtCore import QEvent, QLocale, QObject, QTimer, Signal
from PySide6.QtWidgets import QApplication

from tundish import __version__
from tundish.desktop import theme
from tundish.desktop.look import Look
from tundish.desktop.main_window import MainWindow
from tundish.desktop.process import memory_mb, since_start_ms
from tundish.errors import TundishError

SELFCHECK: Final = "--selfcheck"


class FirstPaint(QObject):
    """Tells once when a window has been painted, with the milliseconds since the process began."""

    done = Signal(float)

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._seen = False
        window.frame.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Paint and not self._seen:
            self._seen = True
            # The filter runs before the painting; the timer fires when it is done.
            QTimer.singleShot(0, self._tell)
        return super().eventFilter(watched, event)

    def _tell(self) -> None:
        self.done.emit(since_start_ms())


class Program(QObject):
    """The window, and the work that begins once it is painted."""

    ready = Signal()

    def __init__(self, window: MainWindow, *, demo: bool = False) -> None:
        super().__init__(window)
        self.window = window
        self.first_paint_ms = 0.0
        self._demo = demo
        first = FirstPaint(window)
        first.done.connect(self._painted)

    def _painted(self, took_ms: float) -> None:
        self.first_paint_ms = took_ms
        gc.enable()
        from tundish.desktop.shell import Shell
        from tundish.desktop.workspace import Workspace
        from tundish.store.keep import Store

        try:
            workspace = Workspace(Store(), self)
        except TundishError as fault:
            self.window.where_from.show_help("The database cannot be opened", (str(fault),))
            return
        self.shell = Shell(self.window, workspace)
        self.shell.start(demo=self._demo)
        gc.freeze()
        self.ready.emit()


def run(words: Sequence[str]) -> int:
    """Open the window; with `--selfcheck FILE.png` on the demo job, saving its picture and printing one line."""
    picture = _picture(words)
    if picture is None and words:
        sys.stderr.write("tundish: --selfcheck FILE.png takes the name of one picture\n")
        return 2
    # Nothing made before the first paint is garbage: looking for some only keeps the user waiting.
    gc.disable()
    QLocale.setDefault(QLocale(QLocale.Language.English, QLocale.Country.UnitedKingdom))
    app = theme.application(["tundish"])
    app.setApplicationName("Tundish")
    theme.apply(app, Look(theme.desktop_scheme(app)))
    window = MainWindow()
    sys.excepthook = _said
    program = Program(window, demo=picture is not None)
    if picture is not None:
        check = SelfCheck(program, picture)
        window.show()
        return app.exec() or check.code
    window.show()
    return app.exec()


class SelfCheck(QObject):
    """Waits for the demo job to be worked out, saves the window's picture and prints what was measured."""

    def __init__(self, program: Program, picture: Path) -> None:
        super().__init__(program)
        self.code = 1
        self._program, self._picture = program, picture
        program.ready.connect(self._listen)

    def _listen(self) -> None:
        self._program.shell.workspace.estimate_ready.connect(self._worked_out)

    def _worked_out(self) -> None:
        # Once more round the loop, so that what the pages were told is painted.
        QTimer.singleShot(200, self._finish)

    def _finish(self) -> None:
        if self.code == 0:
            return
        saved = self._program.window.grab().save(str(self._picture))
        self.code = 0 if saved else 2
        import json

        measured = {"first_paint_ms": round(self._program.first_paint_ms, 1), "rss_mb": round(memory_mb(), 1), "version": __version__}
        sys.stdout.write(json.dumps(measured) + "\n")
        sys.stdout.flush()
        if not saved:
            sys.stderr.write(f"tundish: the picture could not be written to {self._picture}\n")
        self._program.window.close()
        QApplication.quit()


def _picture(words: Sequence[str]) -> Path | None:
    return Path(words[1]) if len(words) == 2 and words[0] == SELFCHECK else None  # noqa: PLR2004 - the option and its file


def _said(kind: type[BaseException], fault: BaseException, trace: TracebackType | None) -> None:
    """A fault of the program: kept in the log, and said in a sentence, never as a traceback at the user."""
    import logging

    logging.getLogger("tundish").error("a fault of the program", exc_info=(kind, fault, trace))
    window = next((each for each in QApplication.topLevelWidgets() if isinstance(each, MainWindow)), None)
    if window is not None:
        words = f"Something in the program went wrong ({kind.__name__}). Everything you typed is kept. Go on, or close and open it again."
        window.where_from.show_help("A fault of the program", (words,))
