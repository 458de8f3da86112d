"""What is not loaded before the window is painted: each of these costs more than the whole of Qt, or nearly."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

HEAVY = {"sqlalchemy", "alembic", "reportlab", "openpyxl", "numpy", "highspy", "pypdfium2", "PIL"}


def loaded_by(module: str, source: Path) -> set[str]:
    line = f"import sys, {module}; print(*{{name.partition('.')[0] for name in sys.modules}})"
    done = subprocess.run(
        [sys.executable, "-c", line], env={**os.environ, "PYTHONPATH": str(source)}, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return set(done.stdout.split())


def test_the_window_loads_nothing_heavy(checkout: Path) -> None:
    assert not loaded_by("tundish.desktop.app", checkout / "src") & HEAVY


def test_the_engine_loads_neither_qt_nor_anything_heavy(checkout: Path) -> None:
    assert not loaded_by("tundish.estimate", checkout / "src") & (HEAVY | {"PySide6"})


def test_a_heavy_library_would_be_seen(checkout: Path) -> None:
    assert "numpy" in loaded_by("numpy", checkout / "src")
