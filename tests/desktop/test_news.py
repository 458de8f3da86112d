"""What the catalogue gained by opening an older database is said in the window."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from tests.desktop.fitter import WAIT_MS
from tundish.desktop.app import Program
from tundish.desktop.main_window import MainWindow
from tundish.store.database import FILE, home
from tundish.store.keep import Store


def test_an_older_catalogue_is_topped_up_and_the_window_says_so(qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TUNDISH_HOME", str(tmp_path / "home"))
    Store().close()
    there = sqlite3.connect(home() / FILE)
    there.execute("DELETE FROM items WHERE code = 'soil-branch-110-boss'")
    there.execute("DELETE FROM supplied WHERE key = 'soil-branch-110-boss'")
    there.commit()
    there.close()
    window = MainWindow()
    program = Program(window)
    with qtbot.waitSignal(program.ready, timeout=WAIT_MS):
        window.show()
    said = " ".join(each.text() for each in window.where_from.findChildren(QLabel))
    assert "New in your catalogue" in said
    assert "1 item (" in said
    assert "soil-branch-110-boss" in program.shell.workspace.book.items
    window.close()
    window.deleteLater()
