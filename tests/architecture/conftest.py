"""The checkout as the tests of its shape see it."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def checkout() -> Path:
    return Path(__file__).parents[2]
