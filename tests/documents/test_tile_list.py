"""Tiles on the cut list and in the wall drawing are those of the start that was chosen."""

from __future__ import annotations

import pytest

from tests.jobs.test_papers import JOBS
from tundish.catalogue.load import supplied_book
from tundish.documents.block import Paragraph, Sketch, Table
from tundish.documents.tile_drawing import MOVEMENT, notes
from tundish.documents.tile_lines import columns, courses, end_tiles
from tundish.documents.tile_list import tile_list
from tundish.estimate import Job, estimate
from tundish.field import put
from tundish.layout.room import Room
from tundish.layout.tile_starts import Choice
from tundish.layout.tiled_room import tile_choices, tiled
from tundish.layout.tiles import Start, TiledFace, Tiling, set_out
from tundish.rules.tile_count import whole_tiles


def started(job: Job, name: str) -> Room:
    return estimate(put(job, "rooms.0.design.finish.tile_start", name), supplied_book()).rooms[0]


@pytest.mark.parametrize("number", sorted(JOBS))
def test_the_start_that_is_chosen_is_drawn_listed_and_counted(number: str) -> None:
    room = estimate(JOBS[number], supplied_book()).rooms[0]
    for choice in tile_choices(room):
        other = started(JOBS[number], choice.start.name)
        laid = tiled(other)
        assert laid is not None
        assert laid.start.name == choice.start.name
        front = laid.faces[0]
        assert end_tiles(other) == front.ends
        assert len(columns(other)) == len(front.columns[0]) - 1
        assert len(courses(other)) == len(front.rows) - 1
        assert sorted(courses(other), reverse=True) == list(courses(other))
        blocks = list(tile_list(other))
        assert any(isinstance(each, Paragraph) and choice.start.name in each.text for each in blocks)
        assert sum(isinstance(each, Sketch) for each in blocks) == len(laid.faces)
        holes = [row for each in blocks if isinstance(each, Table) for row in each.rows]
        assert len(holes) == sum(len(face.drilled) for face in laid.faces)
        whole = sum(face.whole for face in laid.faces)
        assert whole <= whole_tiles(other).value <= whole + sum(len(face.cuts) for face in laid.faces)


def test_a_name_that_no_start_has_is_no_start() -> None:
    room = estimate(JOBS["101"], supplied_book()).rooms[0]
    assert tiled(started(JOBS["101"], "a tile on the moon")) == tiled(room)


def test_long_faces_say_where_they_may_move() -> None:
    laid = set_out(TiledFace("Front", 10_000, 600), Tiling(300, 200, 2), Start(0, 0))
    words = list(notes(Choice(laid.start, (laid,))))
    assert words[0].startswith("Front: movement joints ")
    assert MOVEMENT < 10_000
    assert "one batch" in words[-1]
