"""The program started as a user starts it, looking at itself."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

from PySide6.QtGui import QImage


def started(words: list[str], home: Path) -> subprocess.CompletedProcess[str]:
    environment = os.environ | {"TUNDISH_HOME": str(home), "QT_QPA_PLATFORM": "offscreen"}
    return subprocess.run(
        [sys.executable, "-m", "tundish", *words], capture_output=True, text=True, check=False, env=environment, timeout=120
    )


def test_the_selfcheck_opens_the_demonstration_saves_a_picture_and_says_what_it_took(tmp_path: Path) -> None:
    picture = tmp_path / "window.png"
    done = started(["--selfcheck", str(picture)], tmp_path / "home")
    assert done.returncode == 0, done.stderr
    said = json.loads(done.stdout)
    assert set(said) == {"first_paint_ms", "rss_mb", "version"}
    assert said["first_paint_ms"] > 0
    assert QImage(str(picture)).width() >= 1180


def test_a_picture_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    done = started(["--selfcheck", str(tmp_path / "no" / "such" / "window.png")], tmp_path / "home")
    assert done.returncode == 2
    assert "could not be written" in done.stderr


def test_the_option_needs_its_file(tmp_path: Path) -> None:
    done = started(["--selfcheck"], tmp_path / "home")
    assert done.returncode == 2
    assert "takes the name" in done.stderr
