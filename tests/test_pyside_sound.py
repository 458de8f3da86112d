"""Guards the pin on Qt: one release loses a reference to None at each call and aborts after some thousands (docs/decisions/001)."""

from __future__ import annotations

import sys

from PySide6.QtCore import QObject, Signal

CALLS = 1000


class Bell(QObject):
    rung = Signal()


def test_none_survives_calls_into_qt() -> None:
    bell = Bell()
    before = sys.getrefcount(None)
    for _ in range(CALLS):
        bell.setObjectName("bell")
    assert sys.getrefcount(None) > before - CALLS // 2


def test_true_survives_signals() -> None:
    bell = Bell()
    before = sys.getrefcount(True)
    for _ in range(CALLS):
        bell.rung.emit()
    assert sys.getrefcount(True) > before - CALLS // 2
