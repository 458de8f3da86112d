"""The program opened on a new database, for journeys through the real window."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.desktop.fitter import WAIT_MS, Fitter
from tundish.desktop import recalculate
from tundish.desktop.app import Program
from tundish.desktop.main_window import MainWindow


@pytest.fixture
def fitter(qtbot: QtBot, first_day: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Fitter]:
    """The program opened on a new database, as on the first day; nobody's hand is waited for before better cut plans are looked for."""
    monkeypatch.setattr(recalculate, "QUIET_MS", 20)
    window = MainWindow()
    program = Program(window)
    with qtbot.waitSignal(program.ready, timeout=WAIT_MS), qtbot.waitActive(window):
        window.show()
        window.activateWindow()
    yield Fitter(program, qtbot)
    window.close()
    window.deleteLater()
