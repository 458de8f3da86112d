"""What every test stands on: no screen needed, and the user's own folders out of reach."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
# A busy machine is no fault of the code. A merge is judged on the same cases each time; at a desk every run looks at new ones.
settings.register_profile("tundish", deadline=None, derandomize=bool(os.environ.get("CI")))
settings.load_profile("tundish")


@pytest.fixture(autouse=True, scope="session")
def own_folders(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Jobs, settings and papers of the tests go to a folder that is thrown away."""
    home = tmp_path_factory.mktemp("home")
    names = ("HOME", "USERPROFILE", "APPDATA", "LOCALAPPDATA", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME")
    with pytest.MonkeyPatch.context() as patch:
        for name in names:
            patch.setenv(name, str(home))
        yield


@pytest.fixture(scope="session")
def supplied_database(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database as it is on the first day, made once: for copies only."""
    from tundish.store.database import FILE
    from tundish.store.keep import Store

    home = tmp_path_factory.mktemp("supplied")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TUNDISH_HOME", str(home))
        Store().close()
    return home / FILE


@pytest.fixture
def first_day(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, supplied_database: Path) -> Path:
    """A folder of the user's own, with the database of the first day."""
    home = tmp_path / "home"
    home.mkdir()
    shutil.copy(supplied_database, home)
    monkeypatch.setenv("TUNDISH_HOME", str(home))
    return home
