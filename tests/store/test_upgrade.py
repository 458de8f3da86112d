"""Old job files: one version at a time, in order."""

from __future__ import annotations

import pytest

from tundish.store import upgrade
from tundish.store.upgrade import STEPS, VERSION, upgraded


def test_there_is_a_step_from_every_older_version() -> None:
    assert set(STEPS) == set(range(1, VERSION))


def test_a_file_of_the_present_version_stays_as_it_is() -> None:
    plain: dict[str, object] = {"number": "7"}
    assert upgraded(plain, VERSION) == {"number": "7"}


def test_an_old_file_takes_every_step_in_order(monkeypatch: pytest.MonkeyPatch) -> None:
    def step(name: str) -> upgrade.Step:
        return lambda plain: {**plain, "taken": f"{plain.get('taken', '')}{name}"}

    monkeypatch.setattr(upgrade, "VERSION", 4)
    monkeypatch.setattr(upgrade, "STEPS", {1: step("a"), 2: step("b"), 3: step("c")})
    assert upgraded({}, 1) == {"taken": "abc"}
    assert upgraded({}, 3) == {"taken": "c"}
