"""Tiles set out: they cover the face, joints stay free, holes are told in every tile they touch, and slivers are avoided."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as some

from tundish.cutting.plan import Effort, Piece, Sheet
from tundish.cutting.sheets import plan_sheets
from tundish.layout.tile_cuts import SAW, cut_from
from tundish.layout.tile_starts import Line, best_starts, starts
from tundish.layout.tiles import BadTilingError, Gap, Hole, SetOut, Start, TiledFace, Tiling, around, movement_joints, set_out

TILINGS = some.builds(
    Tiling, some.integers(50, 600), some.integers(50, 600), some.sampled_from((0.0, 1.5, 2.0, 3.0)), some.sampled_from((0.0, 0.5, 1 / 3))
)
HOLES = some.lists(
    some.builds(Hole, some.just("outlet"), some.integers(0, 2500), some.integers(0, 2400), some.integers(10, 200)), max_size=3
)
FACES = some.builds(TiledFace, some.just("Front"), some.integers(100, 2500), some.integers(100, 2400), HOLES.map(tuple))
STARTS = some.builds(Start, some.floats(-5000, 5000), some.floats(-5000, 5000))


def covering(laid: SetOut, x: float, z: float) -> int:
    return sum(tile.x <= x < tile.x + tile.width and tile.z <= z < tile.z + tile.height for tile in laid.tiles)


@given(FACES, TILINGS, STARTS, some.randoms())
def test_tiles_and_joints_cover_the_face(face: TiledFace, tiling: Tiling, start: Start, dice: random.Random) -> None:
    laid = set_out(face, tiling, start)
    for tile in laid.tiles:
        assert 0 <= tile.x <= tile.x + tile.width <= face.width + 1e-6
        assert 0 <= tile.z <= tile.z + tile.height <= face.height + 1e-6
        assert tile.width <= tiling.width + 1e-6
        assert tile.height <= tiling.height + 1e-6
        assert tile.cut == (min(tile.width - tiling.width, tile.height - tiling.height) < -1e-6)
    for _ in range(20):
        x, z = dice.uniform(0.001, face.width - 0.001), dice.uniform(0.001, face.height - 0.001)
        row = math.floor((z - start.z) / tiling.up)
        shifted = start.x + (tiling.shift * tiling.across if row % 2 else 0)
        up, across = (z - start.z) % tiling.up, (x - shifted) % tiling.across
        edges = (up, tiling.up - up, up - tiling.height, across, tiling.across - across, across - tiling.width)
        if min(map(abs, edges)) > 1e-3:
            assert covering(laid, x, z) == (up < tiling.height and across < tiling.width)


@given(FACES, TILINGS, STARTS)
def test_every_tile_that_a_hole_touches_is_told(face: TiledFace, tiling: Tiling, start: Start) -> None:
    laid = set_out(face, tiling, start)
    told = {(one.tile, one.hole) for one in laid.drilled}
    for place, tile in enumerate(laid.tiles):
        for hole in face.holes:
            x = min(max(hole.x, tile.x), tile.x + tile.width)
            z = min(max(hole.z, tile.z), tile.z + tile.height)
            inside = math.hypot(hole.x - x, hole.z - z) < hole.across / 2 - 1e-4
            assert not inside or (place, hole) in told
    for one in laid.drilled:
        tile = laid.tiles[one.tile]
        room = min(one.x, one.z, tile.width - one.x, tile.height - one.z)
        assert one.edge == pytest.approx(room - one.hole.across / 2)


def test_ends_are_alike_and_as_large_as_can_be() -> None:
    """1,500 wide with 300 tiles and 2 mm joints: whole tiles from the left leave 292; a tile in the middle leaves 296 at either end."""
    first, *_ = best_starts([TiledFace("Front", 1500, 1200)], Tiling(300, 200, 2))
    assert first.faces[0].ends == pytest.approx((296, 296))
    assert not first.spoils


def test_a_sliver_is_avoided_and_told() -> None:
    face, tiling = TiledFace("Front", 930, 600), Tiling(300, 200, 2)
    starts = best_starts([face], tiling, most=30)
    assert starts[0].smallest > 60
    assert any("a sliver of 24 mm at the right" in words for each in starts for words in each.spoils)
    assert starts == best_starts([face], tiling, most=30)


def test_what_is_spoilt_alike_is_told_once() -> None:
    faces = [TiledFace(name, 1204, 600) for name in ("Front", "Left", "Right")]
    found = best_starts(faces, Tiling(600, 300, 2), [Line("WC 1", 20)], most=30)
    (told,) = {words for each in found for words in each.spoils if "sliver" in words}
    assert told == "Front and Left and Right: a sliver of 19 mm at the left"


@pytest.mark.parametrize(("width", "height"), [(90, 300), (650, 50), (90, 50)])
def test_a_face_narrower_than_a_tile_is_no_sliver_while_one_piece_covers_it(width: float, height: float) -> None:
    """The sides of a niche leave no choice, but for a joint at their edge; a joint that runs through them does spoil them."""
    faces, tiling = [TiledFace("Front", 1200, 600), TiledFace("Niche, left", width, height)], Tiling(600, 300, 2)
    found = best_starts(faces, tiling, [Line("WC 1", 640), Line("WC 2", 270)], most=60)
    if width < tiling.width:
        assert found[0].faces[1].ends == pytest.approx((width, width), abs=2), "a start that leaves it whole is better"
    for each in found:
        side = each.faces[1]
        words = " ".join(words for words in each.spoils if "Niche" in words)
        assert ("sliver" in words) == (min(side.ends) < min(120, width - 2.5)), (side.ends, words)
        assert ("course of only" in words) == (min(side.courses) < min(60, height - 2.5)), (side.courses, words)


def test_slivers_of_one_size_at_both_ends_are_one_remark() -> None:
    starts = best_starts([TiledFace("Front", 340, 600)], Tiling(300, 200, 2), most=30)
    both = [words for each in starts for words in each.spoils if each.faces[0].ends == pytest.approx((18, 18)) and "sliver" in words]
    assert both
    assert set(both) == {"Front: a sliver of 18 mm at the left and at the right"}


def test_a_tile_or_a_joint_lies_on_the_line_asked_for() -> None:
    starts = best_starts([TiledFace("Front", 2000, 1200)], Tiling(300, 200, 2), [Line("WC 1", 640)], most=50)
    on = next(each for each in starts if each.start.name.startswith("a joint on WC 1"))
    edges = {round(tile.x + tile.width, 3) for tile in on.faces[0].tiles}
    assert 639 in edges


def test_a_start_is_called_the_same_whatever_its_line_is_called() -> None:
    faces, tiling, lines = [TiledFace("Front", 2000, 1230)], Tiling(300, 200, 2), [Line("WC, upstairs", 640)]
    found = best_starts(faces, tiling, lines, most=50)
    assert any("WC, upstairs" in each.start.name for each in found)
    assert {each.start for each in found} <= set(starts(faces, tiling, lines))


def test_a_pattern_goes_on_round_a_corner_and_starts_whole_above() -> None:
    faces = [TiledFace("Front", 1000, 600), TiledFace("Return", 500, 600), TiledFace("Shelf", 1000, 200, corner="above")]
    front, side, _ = around(faces, Tiling(300, 200, 2), Start(0, 0))
    assert front.ends[1] + side.ends[0] == pytest.approx(300)
    _, shelf = around([faces[0], faces[2]], Tiling(300, 200, 2), Start(-40, -60))
    alone = around(faces[:1], Tiling(300, 200, 2), Start(-40, 0))[0]
    assert {round(tile.x, 3) for tile in shelf.tiles} == {round(tile.x, 3) for tile in alone.tiles}
    assert shelf.courses == (200, 200)


def test_offcuts_are_used_again() -> None:
    tile = Tiling(300, 200, 0)
    assert cut_from([(100, 200)] * 4, tile) == 2, "two from one: three would want two cuts of the blade more than there is"
    assert cut_from([(98, 200)] * 3, tile) == 1
    assert cut_from([(200, 200), (97, 200), (97, 200)], tile) == 2
    assert cut_from([], tile) == 0


@given(some.lists(some.tuples(some.integers(5, 300), some.integers(5, 200)), max_size=30))
def test_tiles_that_are_cut_up_lie_between_the_least_by_area_and_one_for_each(cuts: list[tuple[float, float]]) -> None:
    """No fewer than any plan that saws from edge to edge could take, no more than the cuts; the sheet planner is a second opinion."""
    taken = cut_from(cuts, Tiling(300, 200, 0))
    assert taken <= len(cuts)
    pieces = [Piece(str(place), length, width=width, turn=False) for place, (length, width) in enumerate(cuts)]
    other = plan_sheets(pieces, [Sheet(300, 200, 1)], SAW, effort=Effort.QUICK)
    assert other.bound_pence <= taken <= max(len(other.cuts) * 1.5, len(other.cuts) + 2)


def test_many_cut_tiles_are_counted_by_their_sizes() -> None:
    assert cut_from([(98, 200)] * 600, Tiling(300, 200, 0)) == 200


def test_movement_joints_lie_on_tile_joints() -> None:
    places = movement_joints(10_000, Tiling(300, 200, 2), 0.0, 4500)
    assert all((place + 1) % 302 == pytest.approx(0) for place in places)
    assert all(after - before <= 4500 for before, after in zip((0.0, *places), (*places, 10_000.0), strict=True))
    assert movement_joints(4500, Tiling(300, 200, 2), 0.0, 4500) == ()


BAD = (
    lambda: Tiling(0, 200, 2),
    lambda: Tiling(300, float("nan"), 2),
    lambda: Tiling(300, 200, -1),
    lambda: movement_joints(9, Tiling(300, 200, 2), 0, 300),
)


@pytest.mark.parametrize("made", BAD)
def test_what_cannot_be_laid_is_refused(made: object) -> None:
    with pytest.raises(BadTilingError):
        made()  # type: ignore[operator]


def test_a_slip_of_the_unit_is_refused() -> None:
    with pytest.raises(BadTilingError, match="more than 50000 tiles"):
        set_out(TiledFace("Front", 1e7, 1e7), Tiling(300, 200, 2), Start(0, 0))


GAPS = some.lists(
    some.builds(Gap, some.integers(-100, 2500), some.integers(-100, 2400), some.integers(1, 1500), some.integers(1, 1500)), max_size=3
)


@given(FACES, TILINGS, STARTS, GAPS.map(tuple))
def test_only_tiles_that_lie_wholly_in_a_gap_are_left_out(face: TiledFace, tiling: Tiling, start: Start, gaps: tuple[Gap, ...]) -> None:
    every, laid = set_out(face, tiling, start), set_out(replace(face, gaps=gaps), tiling, start)
    inside = [
        tile
        for tile in every.tiles
        if any(
            gap.x <= tile.x + 1e-6
            and gap.z <= tile.z + 1e-6
            and tile.x + tile.width <= gap.x + gap.width + 1e-6
            and tile.z + tile.height <= gap.z + gap.height + 1e-6
            for gap in gaps
        )
    ]
    assert set(laid.tiles) == set(every.tiles) - set(inside)
    assert laid.count == every.count - len(inside) == laid.whole + len(laid.cuts)
