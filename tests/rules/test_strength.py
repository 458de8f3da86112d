"""Checks of strength: none goes out without its caution."""

from __future__ import annotations

import pytest

from tests.rules.test_cases import given
from tundish.rules.loads.wall_pull import wall_pull
from tundish.rules.rule import Finding


@pytest.mark.parametrize("wall", ["brick", "metal stud"])
@pytest.mark.parametrize("pull", [0.01, 5.0])
def test_every_pull_carries_its_caution(wall: str, pull: float) -> None:
    pulls = {"anchor-brick.pull_kn": pull, "screw-wall-metal.pull_kn": pull}
    room, book = given({"room": "plain", "set": {"survey.wall.construction": wall}, "book": pulls})
    for one in wall_pull.says(room, book):
        assert isinstance(one, Finding)
        assert "makers' instructions and a chartered or licensed person come first" in one.message
