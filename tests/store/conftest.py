from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tundish.store.keep import Store


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    """A new database with the supplied catalogue, in a home of its own."""
    monkeypatch.setenv("TUNDISH_HOME", str(tmp_path / "home"))
    made = Store()
    yield made
    made.close()
