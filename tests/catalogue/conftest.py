"""A copy of the supplied files that a test may spoil."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from tundish.resources import resource


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shutil.copytree(resource("catalogue"), tmp_path / "catalogue")
    shutil.copytree(resource("rulebook"), tmp_path / "rulebook")
    return tmp_path


@pytest.fixture
def spoil(folder: Path) -> Callable[[str, str, str], None]:
    """Put other words in the place of the first such words of a file."""

    def change(name: str, old: str, new: str) -> None:
        path = folder / name
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new, 1), encoding="utf-8")

    return change
