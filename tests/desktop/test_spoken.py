"""Changes are said politely: one at a time, the latest one, never all of them."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from tundish.desktop import spoken
from tundish.desktop.spoken import Speaker


def test_of_many_changes_the_first_and_the_last_are_said(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    said: list[str] = []

    def listen(event: QAccessibleAnnouncementEvent) -> None:
        said.append(event.message())

    monkeypatch.setattr(QAccessible, "updateAccessibility", listen)
    monkeypatch.setattr(spoken, "PAUSE_MS", 50)
    window = QWidget()
    qtbot.addWidget(window)
    speaker = Speaker(window)
    for words in ("1 to look at", "2 to look at", "3 to look at"):
        speaker.say(words)
    assert said == ["1 to look at"]
    qtbot.waitUntil(lambda: len(said) == 2)
    assert said[1] == "3 to look at"
