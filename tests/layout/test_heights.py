"""The chain of heights, worked by hand from 20 of build-up and a pre-wall 1,200 high."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tundish.catalogue.book import Book
from tundish.field import Entry
from tundish.figure import where_from
from tundish.layout.design import RoomPlan
from tundish.layout.room import Room
from tundish.layout.work_out import work_out
from tundish.survey.floor import Layer

Work = Callable[..., Room]
Planned = Callable[..., RoomPlan]


def test_the_finished_floor_is_the_sum_of_its_layers(work: Work) -> None:
    floor = work().finished_floor
    assert floor.value == 20  # 12 + 8
    assert [child.figure.label for child in where_from(floor).children] == ["Screed", "Layer 2"]


def test_without_a_build_up_the_floor_is_finished_and_certain(work: Work) -> None:
    floor = work(survey__floor__build_up=()).finished_floor
    assert floor.value == 0
    assert floor.settled


def test_a_layer_still_open_moves_every_height_above_it(work: Work) -> None:
    room = work(survey__floor__build_up=(Layer(thickness=Entry(20, low=18, high=25)),))
    for key in ("finished_floor", "datum", "top_of_prewall", "top_of_steel"):
        figure = room.figures[key]
        assert (figure.low, figure.high) == (figure.value - 2, figure.value + 5)
        assert figure.tbc


def test_the_datum_is_a_metre_above_the_finished_floor(work: Work) -> None:
    assert work().figures["datum"].value == 1020


def test_steel_stops_short_of_the_shelf_by_tile_bed_and_board(work: Work) -> None:
    room = work()
    assert room.top.value == 1220  # 20 + 1,200
    assert room.top_of_steel.value == 1196  # 1,220 − 9 − 3 − 12
    assert room.top_of_steel.label == "Top of steel"
    assert [(child.sign, child.figure.value) for child in where_from(room.top_of_steel).children] == [
        ("+", 20), ("+", 1200), ("−", 9), ("−", 3), ("−", 12),
    ]  # fmt: skip


def test_steel_stops_short_of_a_capping_by_slab_and_bed_and_tiles_end_under_it(work: Work) -> None:
    room = work(design__prewall__shelf=False)
    assert room.top.value == 1220
    assert room.top_of_steel.value == 1197  # 1,220 − 20 − 3
    assert room.figures["front.tiled_height"].value == 1180  # 1,200 − 20
    assert [face.key for face in room.faces] == ["front"]
    assert room.capping is not None
    assert (room.capping.length.value, room.capping.depth.value) == (2000, 225 + 24 + 15)
    assert work(design__prewall__shelf=False, design__prewall__height="full").capping is None


def test_a_capping_that_the_catalogue_has_not_is_told_and_another_or_none_stands_in(work: Work, planned: Planned, book: Book) -> None:
    room = work(design__prewall__shelf=False, design__prewall__capping="gone")
    assert [problem.path for problem in room.problems] == ["rooms.0.design.prewall.capping"]
    assert room.capping is not None
    assert room.capping.item.code == "capping-20-white"
    without = replace(book, items={code: item for code, item in book.items.items() if item.kind != "capping"})
    bare = work_out(planned(design__prewall__shelf=False), without)
    assert bare.capping is None
    assert bare.top_of_steel.value == bare.top.value
    assert "does not hold" in bare.problems[0].text


def test_a_full_height_pre_wall_goes_to_the_ceiling_and_its_steel_10_short_of_it(work: Work) -> None:
    room = work(design__prewall__height="full")
    assert room.top.value == 2400
    assert room.top_of_steel.value == 2390
    assert room.figures["front.tiled_height"].value == 2380  # 2,400 − 20
    assert [face.key for face in room.faces] == ["front"]


def test_studwork_has_a_top_of_its_own_name(work: Work) -> None:
    assert work(design__prewall__built_of="timber").top_of_steel.label == "Top of studwork"


def test_a_pre_wall_above_the_ceiling_is_told_and_held_there(work: Work) -> None:
    room = work(design__prewall__top=2390)
    assert room.top.value == 2400
    assert room.top_of_steel.value == 2376  # 2,400 − 24
    assert room.figures["front.tiled_height"].value == 2380
    assert [(each.path, each.text) for each in room.problems] == [
        ("rooms.0.design.prewall.top", "The pre-wall would reach 2,410 above the bare floor, the ceiling is at 2,400: lower its top")
    ]
