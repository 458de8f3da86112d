"""Nothing heavy stands between the start and the first painted window."""

from __future__ import annotations

import subprocess
import sys

HEAVY = ("sqlalchemy", "alembic", "sqlite3", "reportlab", "openpyxl", "numpy", "highspy", "pypdfium2", "asyncio")
LATER = ("tundish.desktop.canvas", "tundish.estimate", "tundish.store", "tundish.documents")
PROGRAM = """
import sys
from PySide6.QtWidgets import QApplication
from tundish.desktop import theme
from tundish.desktop.look import Look
from tundish.desktop.main_window import MainWindow
app = theme.application(["tundish"])
theme.apply(app, Look())
window = MainWindow()
window.show()
app.processEvents()
print(" ".join(sys.modules))
"""


def test_the_window_is_painted_without_the_database_the_engine_or_the_drawings() -> None:
    ran = subprocess.run([sys.executable, "-c", PROGRAM], capture_output=True, text=True, check=True, timeout=60)
    brought_in = set(ran.stdout.split())
    assert "tundish.desktop.main_window" in brought_in
    assert sorted(brought_in & {*HEAVY, *LATER}) == []
