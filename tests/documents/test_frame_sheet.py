"""How each frame is set, as the setting-out sheet says it: with sound pads or without."""

from __future__ import annotations

from typing import Any

import pytest

from tests.published.asking import room_of
from tundish.documents import frame_sheet
from tundish.documents.block import Row, Table


def pads(changes: dict[str, Any]) -> Row:
    table = frame_sheet.settings(room_of(changes)[0])[0]
    assert isinstance(table, Table)
    return next(row for row in table.rows if row.cells[0] == "Sound pads")


@pytest.mark.parametrize(
    ("changes", "to", "says", "tbc"),
    [
        ({}, "with", "one under each foot and at each bracket", False),
        ({"design.prewall.built_of": "self-standing"}, "with", "one under each foot; feet", False),
        ({"design.appliances.0.pads": "without sound pads"}, "without", "set for none", False),
        (
            {"survey.floor.build_up": [{"what": "Tile", "thickness": {"value": 9, "low": 5, "high": 12}}]},
            "with or none",
            "makes room",
            True,
        ),
    ],
)
def test_it_says_whether_a_frame_stands_on_sound_pads(changes: dict[str, Any], to: str, says: str, *, tbc: bool) -> None:
    row = pads(changes)
    assert (row.cells[1], row.tbc) == (to, tbc)
    assert says in str(row.cells[2])
