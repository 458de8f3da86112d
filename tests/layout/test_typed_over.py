"""Figures typed over: what rests on them follows, what was worked out is kept in words, and rows that name none are told."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tundish.field import Entry
from tundish.figure import Known
from tundish.layout.design import Appliance, Typed
from tundish.layout.room import Room
from tundish.layout.typed_over import typeable

Work = Callable[..., Room]
Hang = Callable[..., Appliance]


def typed(*rows: tuple[str, float | None, str]) -> dict[str, object]:
    return {"design__typed": tuple(Typed(figure=name, value=None if value is None else Entry(value), why=why) for name, value, why in rows)}


def test_what_rests_on_it_follows(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 1000, 420), **typed(("wc-1.studs", 350, "old holes")))
    studs = room.figures["wc-1.studs"]
    assert (studs.value, studs.low, studs.high, studs.known) == (350, 350, 350, Known.TYPED)
    assert studs.note == "worked out 340, typed 350: old holes"
    assert (room.figures["wc-1.outlet"].value, room.figures["wc-1.inlet"].value) == (250, 385)
    assert room.figures["wc-1.top"].value == 440
    assert not room.problems


def test_the_finished_floor_moves_every_height(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 1000, 420), **typed(("finished_floor", 50, "")))
    names = ("datum", "wc-1.studs", "wc-1.feet", "top_of_prewall")
    assert [room.figures[name].value for name in names] == [1050, 370, 60, 1250]
    assert room.figures["finished_floor"].note == "worked out 20, typed 50"


def test_steel_follows_the_top_of_the_pre_wall(work: Work) -> None:
    room = work(**typed(("top_of_prewall", 1300, "level with the sill")))
    assert room.top_of_steel.value == 1300 - 24
    front = next(face for face in room.faces if face.key == "front")
    assert front.tiled_height.value == 1280


@pytest.mark.parametrize("name", ["datum", "depth", "thickness", "finished_face", "top_of_steel", "wc-1.reach", "wc-1.plate", "wc-1.feet"])
def test_every_figure_that_can_be_typed_stands_as_typed(work: Work, hang: Hang, name: str) -> None:
    room = work(hang("wc", 1000, 420), **typed((name, 123, "")))
    assert room.figures[name].value == 123
    assert not room.problems


def test_whatever_is_offered_can_be_typed(work: Work, hang: Hang) -> None:
    plain = work(hang("wc", 500, 420), hang("basin", 1500, 850))
    for name in typeable(plain):
        old = plain.figures[name].value
        room = work(hang("wc", 500, 420), hang("basin", 1500, 850), **typed((name, old + 1, "")))
        assert room.figures[name].value == old + 1
        assert not room.problems


@pytest.mark.parametrize(
    ("rows", "place", "words"),
    [
        ([("sauna.top", 1, "")], "0.figure", "There is no figure called sauna.top"),
        ([("U1", 1, "")], "0.figure", "U1 follows from other figures"),
        ([(" ", 1, "")], "0.figure", "Say which figure"),
        ([("datum", None, "")], "0.value", "no value is given"),
        ([("datum", 1, ""), ("datum", 2, "")], "1.figure", "typed over twice"),
    ],
)
def test_a_row_that_cannot_be_used_is_told(work: Work, rows: list[tuple[str, float | None, str]], place: str, words: str) -> None:
    (problem,) = work(**typed(*rows)).problems
    assert problem.path == f"rooms.0.design.typed.{place}"
    assert words in problem.text
