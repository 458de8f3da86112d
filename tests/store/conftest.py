from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tundish.store.keep import Store


@pytest.fixture
def store(first_day: Path) -> Iterator[Store]:
    """A new database with the supplied catalogue, in a home of its own."""
    made = Store()
    yield made
    made.close()
