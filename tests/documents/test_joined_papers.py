"""A run joined to a pre-wall across its corner, on paper: where, at what angle, and how everything is cut."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tundish.catalogue.load import supplied_book
from tundish.documents import setting_out, tile_drawing
from tundish.documents.block import Paragraph
from tundish.documents.drawing import Box, Line, Shape
from tundish.documents.plan_drawing import strip
from tundish.documents.wall_drawing import elevation
from tundish.estimate import Estimate, estimate
from tundish.field import Entry, put
from tundish.layout.clip import area_of_shape
from tundish.layout.design import PreWall
from tundish.layout.tiled_room import tiled
from tundish.layout.work_out import work_out
from tundish.measure import show_length
from tundish.store.keep import demo_jobs


@pytest.fixture(scope="module")
def worked() -> Estimate:
    """The cloakroom, larger, its WC across the corner of walls D and A, 900 along each, and the run of wall A joined to it."""
    job = next(each for each in demo_jobs() if each.number == "101")
    for path, size in (("width", 3200.0), ("depth", 2600.0)):
        job = put(job, f"rooms.0.survey.room.{path}", Entry(size))
    corner = PreWall(name="corner", wall="A", stands="across its left-hand corner", setback=Entry(900), top=job.rooms[0].design.prewall.top)
    wc, basin = job.rooms[0].design.appliances
    hung = (replace(wc, on="2", centre=None), replace(basin, centre=Entry(1500)))
    job = put(put(job, "rooms.0.design.further", (corner,)), "rooms.0.design.appliances", hung)
    return estimate(job, supplied_book())


@pytest.fixture(scope="module")
def stopped(worked: Estimate) -> Estimate:
    """The same with the run 300 lower, so that it stops against the corner's front."""
    run, (corner,) = worked.job.rooms[0].design.prewall, worked.job.rooms[0].design.further
    assert corner.top is not None
    lower = replace(run, top=Entry(corner.top.value - 300))
    hung = tuple(each for each in worked.job.rooms[0].design.appliances if each.on == "2")
    job = put(put(worked.job, "rooms.0.design.prewall", lower), "rooms.0.design.appliances", hung)
    return estimate(job, supplied_book())


def test_the_setting_out_sheet_of_each_says_how_the_lower_stops_against_the_higher(stopped: Estimate) -> None:
    said = [[each.text for each in setting_out.build(stopped, room).blocks if isinstance(each, Paragraph)] for room in stopped.rooms]
    run = "boards, tiles, shelf and its edge are cut to 45°, and J1 and J2 close it on that front."
    assert f"The front stops against corner: the frame fronts meet 675 from the left wall, at 135°; {run}" in said[0]
    top = stopped.job.rooms[0].design.prewall.top
    assert top is not None
    high = show_length(top.value)
    up = f"318 along it and up to {high} above the finished floor: the boards are cut out round its steel."
    assert f"Before the right end of the front stands wall A, {up}" in said[1]


def test_each_shows_the_other_where_they_meet(stopped: Estimate) -> None:
    """The corner 675 + 24 x 0.41421 beside the run; the run 249 x 1.41421 before the corner's front."""
    for room, wide in zip(stopped.rooms, (675 + 24 * 0.41421, 249 * 1.41421), strict=True):
        shown = [mark for mark in elevation(room).marks if isinstance(mark, Box) and mark.style == "hidden" and not mark.piece]
        assert any(mark.width == pytest.approx(wide, abs=0.02) for mark in shown)
    (goes_on,) = [mark for mark in strip(stopped.rooms[0]).marks if isinstance(mark, Line) and mark.style == "hidden"]
    assert goes_on.x1 - goes_on.x2 == pytest.approx(goes_on.y1 - goes_on.y2), "the face of the corner, at 45 degrees"
    (run_face,) = [mark for mark in strip(stopped.rooms[1]).marks if isinstance(mark, Line) and mark.style == "hidden"]
    assert run_face.x2 - run_face.x1 == pytest.approx(run_face.y1 - run_face.y2), "and of the run before the corner"
    battens = {mark.piece for mark in strip(stopped.rooms[0]).marks if isinstance(mark, Shape) and mark.style == "timber"}
    assert battens == {"J1", "J2"}


def test_the_setting_out_sheet_of_each_says_where_and_how_they_meet(worked: Estimate) -> None:
    said = [[each.text for each in setting_out.build(worked, room).blocks if isinstance(each, Paragraph)] for room in worked.rooms]
    words = "boards, tiles, shelf and its edge are cut to 22.5°."
    assert f"The front goes on into corner: the frame fronts meet 675 from the left wall, at 135°; {words}" in said[0]
    assert f"The front goes on into wall A: the frame fronts meet 318 from the right end of the front, at 135°; {words}" in said[1]


def test_boards_and_trim_are_listed_with_their_cuts_and_no_board_for_a_return(worked: Estimate) -> None:
    where = [cut.where for line in worked.lines for cut in line.cuts]
    assert not [each for each in where if "return" in each.lower()]
    assert [each for each in where if "bevelled 22.5° to corner" in each]
    assert [each for each in where if "bevelled 22.5° to wall A" in each]
    assert len([each for each in where if "end cut to 22.5°" in each]) == 2
    assert not [each for each in worked.findings if each.title.startswith("Clear of")]


def test_the_tiles_of_a_shelf_across_a_corner_are_drawn_within_it(worked: Estimate) -> None:
    laid = tiled(worked.rooms[1])
    assert laid is not None
    shelf = next(each for each in laid.faces if each.face.outline)
    marks = tile_drawing.tiles(shelf).marks
    edge, *tiles = [mark for mark in marks if isinstance(mark, Shape)]
    assert edge.points == shelf.face.outline
    assert len(tiles) == shelf.count
    assert sum(area_of_shape(each.points) for each in tiles) <= area_of_shape(edge.points)
    assert not [mark for mark in marks if isinstance(mark, Box)]


def test_studwork_is_seen_from_above_as_timber(stopped: Estimate) -> None:
    room = work_out(put(stopped.job.rooms[0], "design.prewall.built_of", "timber"), supplied_book())
    uprights = [mark for mark in strip(room).marks if isinstance(mark, Box) and mark.piece.startswith("U")]
    assert uprights
    assert {mark.style for mark in uprights} == {"timber"}
