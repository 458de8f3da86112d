"""Niches and access openings: what the frame, the boards and the tiles are cut to round them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.field import Entry
from tundish.figure import Known
from tundish.layout.design import Appliance, Design, Finish, Hatch, Niche, PreWall, RoomPlan
from tundish.layout.marks import bare
from tundish.layout.room import Room
from tundish.layout.work_out import work_out
from tundish.survey.survey import Shell, Survey


@pytest.fixture(scope="module")
def book() -> Book:
    return supplied_book()


def entry(value: float) -> Entry:
    return Entry(value, Known.AGREED)


def niche(left: float, bottom: float = 700, width: float = 300, height: float = 300, depth: float = 90) -> Niche:
    values = {"from_left": left, "bottom": bottom, "width": width, "height": height, "depth": depth}
    return replace(Niche(), **{name: entry(value) for name, value in values.items()})  # type: ignore[arg-type]


def room(book: Book, *niches: Niche, hatches: tuple[Hatch, ...] = (), wc: float | None = None, **more: object) -> Room:
    prewall = PreWall(depth=entry(225), niches=niches, hatches=hatches, **more)  # type: ignore[arg-type]
    appliances = () if wc is None else (Appliance(ware="pan-ondel-530", frame="frame-wc-1120", centre=entry(wc)),)
    survey = Survey(room=Shell(width=entry(2000), depth=entry(2000), height=entry(2400)))
    return work_out(RoomPlan(survey=survey, design=Design(prewall=prewall, appliances=appliances, finish=Finish())), book)


def members(of: Room, letter: str) -> list[tuple[float, float, float]]:
    """Left edge, foot and length of the members of a letter."""
    return [(each.x, each.z, round(each.length.value, 1)) for each in of.members if bare(each.mark)[0] == letter]


def test_an_opening_is_as_much_larger_as_boards_and_tiles_are_thick(book: Book) -> None:
    recess = room(book, niche(600)).recesses[0]
    assert room(book).thickness.value == 24
    assert (recess.open_left.value, recess.open_right.value) == (576, 924)
    assert (recess.open_foot.value, recess.open_head.value) == (676, 1024)


def test_uprights_stand_beside_the_opening_and_trimmers_lie_between_them(book: Book) -> None:
    worked = room(book, niche(600))
    edges = {each[0] for each in members(worked, "U")}
    assert {576 - 41, 924} <= edges
    assert members(worked, "R") == [(576, 676 - 21, 348), (576, 1024, 348)]


def test_an_upright_that_the_opening_falls_on_is_cut_under_and_over_it(book: Book) -> None:
    worked = room(book, niche(600))
    (cut,) = {round(x, 3) for x, *_ in members(worked, "U") if x + 41 > 576 and x < 924 and x not in {535, 924}}
    pieces = [(z, length) for x, z, length in members(worked, "U") if round(x, 3) == cut]
    steel = worked.top_of_steel.value
    assert pieces == [(21, 676 - 21 - 21), (1024 + 21, round(steel - 21 - 1024 - 21, 1))]
    tied = [each for each in worked.members if each.what == "wall tie" and round(each.x, 3) == cut]
    assert tied, "what is left of it is tied to the wall"


def test_an_upright_near_an_opening_moves_to_its_edge(book: Book) -> None:
    plain = [x + 20.5 for x, *_ in members(room(book), "U")]
    inner = plain[1]
    worked = room(book, niche(inner + 20.5 + 24 + 10, width=250))
    centres = [x + 20.5 for x, *_ in members(worked, "U")]
    assert inner not in centres
    assert inner + 10 in centres


def test_the_front_is_cut_out_and_the_niche_is_boarded_and_tiled_inside(book: Book) -> None:
    worked = room(book, niche(600))
    front = next(each for each in worked.faces if each.key == "front")
    assert any("cut out 348 × 348 for Niche 1" in piece.where for piece in front.boards)
    assert front.tiled_area.value == pytest.approx(front.tiled_width.value * front.tiled_height.value / 1e6 - 0.09)
    inside = {each.key: (each.width.value, each.height.value) for each in worked.faces if each.key.startswith("niche")}
    assert inside == {
        "niche-1-left": (90, 348),
        "niche-1-right": (90, 348),
        "niche-1-sill": (324, 90),
        "niche-1-head": (324, 90),
        "niche-1-back": (348, 348),
    }
    tiled = {each.key: (each.tiled_width.value, each.tiled_height.value) for each in worked.faces if each.key.startswith("niche")}
    assert [tiled[f"niche-1-{face}"] for face in ("back", "left", "sill")] == [(300, 300), (90, 300), (300, 90)]


def test_two_layers_of_board_make_narrower_sills_and_each_piece_twice(book: Book) -> None:
    plan = room(book, niche(600)).plan
    finish = Finish(layers=entry(2))
    worked = work_out(replace(plan, design=replace(plan.design, finish=finish)), book)
    sill = next(each for each in worked.faces if each.key == "niche-1-sill")
    assert len(sill.boards) == 2
    assert sill.width.value == 300 + 2 * (36 - 24)


@pytest.mark.parametrize("built_of", ["steel", "timber"])
def test_a_niche_over_a_frame_stands_on_its_head(book: Book, built_of: str) -> None:
    worked = room(book, niche(700, bottom=1400), wc=850, height="full", built_of=built_of)
    head = worked.placed[0].figures["frame_top"].value
    on = [each for each in members(worked, "U") if each[1] == head]
    assert len(on) == 2
    assert len(members(worked, "R")) == 2


def test_a_hatch_is_opened_as_large_as_its_sheet_says_and_tiled_over_where_it_takes_tiles(book: Book) -> None:
    for code, off, size in (("panel-tiled-450", 0.0, (450, 300)), ("panel-white-200", 0.04, (200, 200))):
        worked = room(book, hatches=(Hatch(item=code, from_left=entry(600), bottom=entry(300)),))
        recess = worked.recesses[0]
        assert [recess.open_width.value, recess.open_height.value] == list(size)
        front = next(each for each in worked.faces if each.key == "front")
        assert front.tiled_area.value == pytest.approx(front.tiled_width.value * front.tiled_height.value / 1e6 - off)


def test_a_hatch_that_is_not_chosen_is_told_and_taken_as_usual(book: Book) -> None:
    worked = room(book, hatches=(Hatch(from_left=entry(600)),))
    assert [each.path for each in worked.problems] == ["rooms.0.design.prewall.hatches.0.item"]
    assert worked.recesses[0].width.value == 300


def test_noggins_of_timber_leave_the_opening_free(book: Book) -> None:
    worked = room(book, niche(600, bottom=500), built_of="timber")
    crossing = [each for each in members(worked, "N") if each[0] < 924 and each[0] + each[2] > 576]
    assert crossing == []
    assert members(worked, "N")


def test_a_hatch_whose_sheet_says_no_size_is_told_and_taken_as_usual(book: Book) -> None:
    sizes = {name: size for name, size in book.items["panel-white-200"].sizes.items() if name != "height"}
    short = replace(book, items={**book.items, "panel-white-200": replace(book.items["panel-white-200"], sizes=sizes)})
    worked = room(short, hatches=(Hatch(item="panel-white-200", from_left=entry(600)),))
    assert [each.path for each in worked.problems] == ["rooms.0.design.prewall.hatches.0.item"]
    assert (worked.recesses[0].width.value, worked.recesses[0].hatch) == (300, None)


def test_board_joints_keep_clear_of_the_sides_of_an_opening(book: Book) -> None:
    """Boards crack from the corners of an opening: the joint that would be 70 beside the niche goes on the support before."""
    assert [piece.x for piece in room(book).faces[0].boards[1:]] == pytest.approx([412.3, 1195.9, 1979.5])
    worked = room(book, niche(1150))
    assert worked.recesses[0].open_left.value == 1126
    assert [piece.x for piece in worked.faces[0].boards[1:]] == pytest.approx([412.3, 804.1, 1587.7])
