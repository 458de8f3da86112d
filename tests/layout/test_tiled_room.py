"""The tiled faces of real pre-walls: every hole lies in a tile, and the best start is no worse than the others."""

from __future__ import annotations

import pytest

from tests.jobs.test_papers import JOBS
from tundish.catalogue.load import supplied_book
from tundish.documents.tile_drawing import drilled, spoilt, tiles, told
from tundish.estimate import estimate
from tundish.layout.tiled_room import tile_choices, tiled_faces


@pytest.fixture(scope="module", params=sorted(JOBS))
def job(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def test_every_pre_wall_has_its_tiles_set_out(job: str) -> None:
    for room in estimate(JOBS[job], supplied_book()).rooms:
        faces = tiled_faces(room)
        choices = tile_choices(room)
        assert len(choices) == min(3, len(choices)) > 0 or not faces
        for choice in choices:
            assert [laid.face for laid in choice.faces] == list(faces)
            assert told(choice).startswith(choice.start.name)
            for laid in choice.faces:
                assert {name for name, *_ in drilled(laid)} == {hole.name for hole in laid.face.holes}
                drawing = tiles(laid)
                assert len(drawing.marks) >= len(laid.tiles)
                assert drawing.title.startswith(laid.face.name)


def test_a_start_that_leaves_a_hole_near_a_tile_s_edge_does_not_spoil_nothing() -> None:
    """In the corner bathroom the first start has a stud 6 mm and the outlet 9 mm from a joint; one start has the pan on a tile's middle."""
    (room,) = (room for room in estimate(JOBS["104"], supplied_book()).rooms if room.name.endswith("WC wall"))
    said = {choice.start.name.partition(",")[0]: " ".join(spoilt(choice)) for choice in tile_choices(room)}
    assert "Holes nearer than 15 mm to a tile's edge: WC 1 right stud, WC 1 outlet" in said["a tile on the middle"]
    assert "stud" not in said["a tile on WC 1"]
