"""Tiles on the cut list and in the wall drawing are those of the start that was chosen."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from tests.jobs.test_papers import JOBS
from tundish.catalogue.load import supplied_book
from tundish.documents import cut_list
from tundish.documents.block import Block, Paragraph, SideBySide, Sketch, Table
from tundish.documents.drawing import Shape, Words
from tundish.documents.tile_drawing import MOVEMENT, notes, tiles
from tundish.documents.tile_lines import columns, courses, end_tiles, uprights
from tundish.documents.tile_list import tile_list
from tundish.estimate import Job, estimate
from tundish.field import put
from tundish.layout.floor_plan import FloorPlan
from tundish.layout.room import Room
from tundish.layout.tile_starts import Choice
from tundish.layout.tiled_floor import floor_laid
from tundish.layout.tiled_room import tile_choices, tiled
from tundish.layout.tiles import Start, TiledFace, Tiling, set_out
from tundish.rules.tile_count import whole_tiles
from tundish.writers.text import as_text


def started(job: Job, name: str) -> Room:
    return estimate(put(job, "rooms.0.design.finish.tile_start", name), supplied_book()).rooms[0]


def drawn(blocks: Sequence[Block]) -> list[Sketch]:
    """Every drawing, those side by side too."""
    inner = [(*each.left, *each.right) if isinstance(each, SideBySide) else (each,) for each in blocks]
    return [each for several in inner for each in several if isinstance(each, Sketch)]


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
        floor = ["Floor"] if other.floor else []
        assert [each.caption for each in drawn(blocks)] == [*(face.face.name for face in laid.faces), *floor]
        holes = [row for each in blocks if isinstance(each, Table) for row in each.rows]
        assert len(holes) == sum(len(face.drilled) for face in laid.faces)
        whole = sum(face.whole for face in laid.faces)
        assert whole <= whole_tiles(other).value <= whole + sum(len(face.cuts) for face in laid.faces)


@pytest.mark.parametrize(("bond", "share"), [("brick bond", 1 / 2), ("third bond", 1 / 3)])
def test_tiles_in_a_bond_are_drawn_counted_and_named_so(bond: str, share: float) -> None:
    job = JOBS["101"]
    straight = estimate(job, supplied_book()).rooms[0]
    room = estimate(put(job, "rooms.0.design.finish.bond", bond), supplied_book()).rooms[0]
    laid = tiled(room)
    assert laid is not None
    front = laid.faces[0]
    even, odd = ({round(each.at % front.tiling.across, 3) for each in one[1:]} for one in front.columns)
    apart = (odd.pop() - even.pop()) % front.tiling.across
    assert apart == pytest.approx(share * front.tiling.across)
    joints = uprights(room)
    assert len(joints) == sum(len(front.columns[row.number % 2]) - 1 for row in front.rows)
    assert {x for x, _, _ in joints} == set(columns(room))
    assert len(columns(room)) > len(columns(straight))
    assert any(isinstance(each, Paragraph) and each.text.startswith(f"Laid in {bond}. ") for each in tile_list(room))


def test_a_movement_joint_in_a_bond_is_cut_through_every_other_course() -> None:
    laid = set_out(TiledFace("Front", 10_000, 600), Tiling(300, 200, 2, 0.5), Start(0, 0))
    assert "the others cut there" in next(iter(notes(Choice(laid.start, (laid,)))))


def test_a_name_that_no_start_has_is_no_start() -> None:
    room = estimate(JOBS["101"], supplied_book()).rooms[0]
    assert tiled(started(JOBS["101"], "a tile on the moon")) == tiled(room)


def test_long_faces_say_where_they_may_move() -> None:
    laid = set_out(TiledFace("Front", 10_000, 600), Tiling(300, 200, 2), Start(0, 0))
    words = list(notes(Choice(laid.start, (laid,))))
    assert words[0].startswith("Front: movement joints ")
    assert MOVEMENT < 10_000


def test_one_batch_is_asked_for_once_however_many_walls_are_tiled() -> None:
    words = " ".join(as_text(cut_list.build(estimate(JOBS["104"], supplied_book()))).split())
    assert words.count("Buy all tiles of one batch") == 1


def test_faces_that_are_narrow_stand_two_by_two() -> None:
    boxing = next(room for room in estimate(JOBS["104"], supplied_book()).rooms if not room.placed)
    blocks = list(tile_list(boxing))
    assert [(len(each.left), len(each.right)) for each in blocks if isinstance(each, SideBySide)] == [(1, 1)]


def test_a_size_is_written_in_its_tile_or_not_at_all() -> None:
    small = tiles(set_out(TiledFace("Front", 2294, 2614), Tiling(150, 150, 2), Start(99 - 150, 0)))
    words = [mark.text for mark in small.marks if isinstance(mark, Words)]
    assert "99" in words  # the cut size alone: 99 × 150 would run into the next tile
    assert not any("×" in each for each in words)
    large = tiles(set_out(TiledFace("Front", 1450, 1180), Tiling(600, 300, 2), Start(128.5 - 600, 0)))
    assert "128.5 × 300" in [mark.text for mark in large.marks if isinstance(mark, Words)]


def floor_of(number: str, tile: str = "tile-600x600-slate") -> Room:
    return estimate(put(JOBS[number], "rooms.0.design.floor.tile", tile), supplied_book()).rooms[0]


@pytest.mark.parametrize("number", sorted(JOBS))
def test_a_tiled_floor_is_drawn_after_the_walls_with_what_stands_on_it(number: str) -> None:
    room = floor_of(number)
    laid, walls = floor_laid(room), tiled(room)
    assert laid is not None
    assert walls is not None
    blocks = list(tile_list(room))
    assert [each.caption for each in drawn(blocks)] == [*(face.face.name for face in walls.faces), "Floor"]
    text = [each.text for each in blocks if isinstance(each, Paragraph)]
    assert any(f"Start with {laid.start.name}. Floor: end tiles" in words for words in text)
    assert any("the gap is filled with sealant" in words for words in text)
    plan = laid.faces[0].face.plan
    assert plan is not None
    shapes = [mark for mark in drawn(blocks)[-1].drawing.marks if isinstance(mark, Shape)]
    assert len(shapes) == 1 + len(plan.stands)


def test_a_long_floor_has_movement_joints_both_ways_on_its_joints() -> None:
    plan = FloorPlan((((0, 0), (17_000, 0), (17_000, 9_000), (0, 9_000)),), ((0, 0), (17_000, 0), (17_000, 9_000), (0, 9_000)), ())
    face = TiledFace("Floor", 17_000, 9_000, plan=plan)
    laid = set_out(face, Tiling(600, 600, 3), Start(0, 0))
    words = list(notes(Choice(Start(0, 0), (laid,))))
    # 13 tiles and their joints are 7,839, half a joint back 7,837.5; twice that is 15,676.5.
    assert words[0] == "Floor: movement joints 7,837.5, 15,676.5 mm from its left (BS 5385-3)."
    assert words[1] == "Floor: movement joints 7,837.5 mm from its side away from wall A (BS 5385-3)."
