"""What the window's tests stand on: the reference screen, the program's look, and nothing left behind by a test."""

from __future__ import annotations

import logging
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QStandardPaths, QTimer
from PySide6.QtWidgets import QApplication, QDialog
from pytestqt.qtbot import QtBot

from tundish.desktop import look, theme
from tundish.desktop.look import Look

if os.environ.get("QT_QPA_PLATFORM") == "offscreen":
    os.environ["QT_QPA_PLATFORM"] = f"offscreen:configfile={Path(__file__).with_name('screens.json')}"


@pytest.fixture(scope="session")
def qapp_args() -> list[str]:
    """The style is asked for as the program asks for it."""
    return ["tundish", "-style", "fusion"]


@pytest.fixture(autouse=True)
def plain_look(qapp: QApplication) -> Iterator[None]:
    """Every test begins in light, at 100 %."""
    QStandardPaths.setTestModeEnabled(True)
    if look.now() != Look() or not qapp.styleSheet():
        theme.apply(qapp, Look())
    yield
    if look.now() != Look():
        theme.apply(qapp, Look())


@pytest.fixture(autouse=True)
def no_stuck_dialogs(qtbot: QtBot) -> Iterator[None]:
    """A dialog that nobody answers is closed after two seconds and fails the test, which would else wait for ever."""
    stuck: list[str] = []

    def close_it() -> None:
        dialog = QApplication.activeModalWidget()
        if dialog is not None:
            stuck.append(f"{type(dialog).__name__}: {dialog.windowTitle()}")
            if isinstance(dialog, QDialog):
                dialog.reject()
            else:
                dialog.close()

    watch = QTimer()
    watch.setInterval(2000)
    watch.timeout.connect(close_it)
    watch.start()
    yield
    watch.stop()
    assert not stuck, f"unexpected dialog: {stuck}"


@pytest.fixture(autouse=True)
def no_window_left(qapp: QApplication) -> Iterator[None]:
    """A window that a test opened is closed by it, or given to qtbot."""
    before = set(QApplication.topLevelWidgets())
    yield
    left = [each for each in QApplication.topLevelWidgets() if each not in before and each.isVisible()]
    names = [f"{type(each).__name__}: {each.windowTitle()}" for each in left]
    for each in left:
        each.close()
    assert not names, f"left open: {names}"


@pytest.fixture(autouse=True)
def no_warning_logged(caplog: pytest.LogCaptureFixture) -> Iterator[None]:
    """A warning in the log is a fault."""
    yield
    said = [each.getMessage() for each in caplog.get_records("call") if each.levelno >= logging.WARNING and each.name != "pytest-qt"]
    assert not said, f"logged: {said}"
