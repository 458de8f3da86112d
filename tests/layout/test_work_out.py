"""A room as a whole: the same from the same, whatever was typed; and no answer outside the range that was shown for it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import pairwise
from typing import TypeVar

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.layout.conftest import ITEMS_OF
from tundish.catalogue.book import Book
from tundish.field import Entry, Field, describe, fields_of, put
from tundish.figure import Figure, Reason, where_from, worked_again
from tundish.layout.design import KINDS, Appliance, RoomPlan
from tundish.layout.room import Room
from tundish.layout.work_out import work_out, work_out_all
from tundish.survey.floor import Layer

Hang = Callable[..., Appliance]
Planned = Callable[..., RoomPlan]
T = TypeVar("T")


@pytest.fixture(scope="session")
def bathroom(planned: Planned, hang: Hang) -> RoomPlan:
    """Three appliances on a stud wall and a floor on joists."""
    changes = {"survey__room__width": 2400, "survey__wall__construction": "timber stud", "survey__floor__kind": "chipboard on joists"}
    appliances = (hang("basin", 500, 850), hang("wc", 1200, 420, seat="seat", plate="plate"), hang("bidet", 1900, 420))
    return planned(*appliances, **changes)


def test_every_figure_a_user_may_ask_about_has_a_name(bathroom: RoomPlan, book: Book) -> None:
    room = work_out(bathroom, book)
    assert {
        "finished_floor", "datum", "top_of_prewall", "top_of_steel", "depth", "finished_face", "thickness", "run", "start", "width",
        "height", "room_depth", "joint", "stack", "stack_from_wall", "branch_invert", "hot", "cold", "wc-1.top", "wc-1.studs",
        "wc-1.outlet", "wc-1.inlet", "wc-1.feet", "wc-1.reach", "wc-1.fall", "wc-1.fall_rate", "wc-1.run", "basin-1.boss",
        "U1", "U1.from_left", "T1", "F1", "W1", "S1", "K1", "P1", "H1a", "C1b", "B1.width", "B1.height", "front.tiled_area",
    } <= set(room.figures)  # fmt: skip
    assert all(figure.label for figure in room.figures.values())


def test_marks_and_keys_are_never_given_twice(bathroom: RoomPlan, book: Book) -> None:
    room = work_out(bathroom, book)
    marks = [member.mark for member in room.members] + [piece.mark for face in room.faces for piece in face.boards]
    marks += [mark for run in room.pipes for mark, _ in run.pieces]
    assert len(set(marks)) == len(marks)


def test_every_receipt_adds_up(bathroom: RoomPlan, book: Book) -> None:
    for key, figure in work_out(bathroom, book).figures.items():
        assert worked_again(figure) == figure.value, key


@pytest.mark.parametrize("built_of", ["steel", "timber"])
def test_every_line_of_a_receipt_says_what_it_is(bathroom: RoomPlan, book: Book, built_of: str) -> None:
    def lines(reason: Reason) -> Iterator[Figure]:
        for child in reason.children:
            yield child.figure
            yield from lines(child)

    for key, figure in work_out(put(bathroom, "design.prewall.built_of", built_of), book).figures.items():
        silent = [line for line in lines(where_from(figure)) if not line.label and line.value not in {0.001, 1e-6}]
        assert not silent, key  # a millimetre turned into metres needs no words


def test_nothing_measured_is_left_to_be_confirmed(bathroom: RoomPlan, book: Book) -> None:
    room = work_out(bathroom, book)
    assert not room.problems
    assert not [key for key, figure in room.figures.items() if not figure.settled]


def test_the_path_of_the_room_leads_every_path(book: Book, plain: RoomPlan) -> None:
    narrow = put(put(plain, "survey.room.width", Entry(0)), "survey.water.hot_from_left", None)
    room = work_out(narrow, book, "rooms.7")
    assert room.path == "rooms.7"
    assert [each.path for each in room.problems] == ["rooms.7.survey.room.width"]
    assert room.width.path == "rooms.7.survey.room.width"


# ------------------------------------------------------------------------------------------------ ranges

OPEN = {
    "survey.room.width": (2400, 40),
    "survey.room.height": (2400, 60),
    "survey.stack.from_left": (150, 40),
    "survey.stack.branch_invert": (160, 25),
    "survey.floor.build_up.0.thickness": (12, 10),
    "design.prewall.depth": (225, 20),
    "design.prewall.top": (1200, 30),
    "design.finish.layers": (2, 1),
    "design.appliances.0.centre": (500, 30),
    "design.appliances.0.top": (850, 30),
    "design.appliances.1.centre": (1200, 30),
    "design.appliances.1.top": (420, 20),
    "design.appliances.2.centre": (1900, 30),
    "survey.water.cold_from_left": (300, 100),
    "survey.floor.joist_centres": (400, 20),
}
STEPWISE = ("B", "F", "S", "N", "W")
"""Pieces whose number and joints follow the values and not the ranges: another value may be another set of pieces."""


def running_elsewhere(shown: Room, decided: Room) -> tuple[str, ...]:
    """The supplies that the rule runs at another height for another value: their keys and marks."""
    levels = {run.key: run.level.value for run in shown.pipes if run.level is not None}
    other = [run for run in decided.pipes if run.level is not None and levels.get(run.key) != run.level.value]
    return tuple(name for run in other for name in (run.key, run.mark))


@given(st.data())
@settings(max_examples=80)
def test_whatever_is_decided_lies_within_the_range_shown(bathroom: RoomPlan, book: Book, data: st.DataObject) -> None:
    open_plan = corner = bathroom
    for path, (value, spread) in OPEN.items():
        low, high = (value - data.draw(st.integers(0, spread)), value + data.draw(st.integers(0, spread)))
        open_plan = put(open_plan, path, Entry(value, low=low, high=high))
        corner = put(corner, path, Entry(data.draw(st.sampled_from((low, value, high)))))
    shown, decided = work_out(open_plan, book), work_out(corner, book)
    compared = 0
    higher = running_elsewhere(shown, decided)
    for key, figure in decided.figures.items():
        # Another rod, or another way past what is in the void, may be chosen for another value.
        if (
            key.startswith((*STEPWISE, *higher))
            or key.endswith((".thread_left", ".from_wall"))
            or (key.startswith("U") and "." in key)
            or key not in shown.figures
        ):
            continue
        compared += 1
        range_ = shown.figures[key]
        assert range_.low - 1e-6 <= figure.value <= range_.high + 1e-6, key
    assert compared > 60
    for one, other in zip(shown.placed, decided.placed, strict=True):
        rod = one.tie_rod
        assert rod is not None
        if rod.size("reach_least").value <= one.figures["reach"].low and one.figures["reach"].high <= rod.size("reach_most").value:
            assert rod.size("reach_least").value <= other.figures["reach"].value <= rod.size("reach_most").value


# ------------------------------------------------------------------------------------------------ whatever was typed

ODD = st.one_of(
    st.sampled_from((0.0, -1.0, 1.0, 100.0, 600.0, 1e3, 2e3, 4e4, 1e9, -1e9, 1e300, math.nan, math.inf, -math.inf)),
    st.floats(-100, 4000, width=32),
)
LIKELY = st.integers(0, 2500).map(float)
WORDS = st.text("aB 1-é", max_size=6)


def entries(numbers: st.SearchStrategy[float]) -> st.SearchStrategy[Entry | None]:
    bounds = st.none() | numbers
    return st.none() | st.builds(Entry, numbers, low=bounds, high=bounds, tbc=st.booleans())


def values(declared: Field, numbers: st.SearchStrategy[float]) -> st.SearchStrategy[object]:
    if declared.of is not None:
        one = records(declared.of, numbers)
        return one if declared.kind == "record" else st.lists(one, max_size=4).map(tuple)
    plain = {
        "number": entries(numbers),
        "choice": st.sampled_from((*declared.options, "something else")),
        "wall": st.sampled_from(("A", "B", "C", "D", "I", "AA")),
        "item": st.sampled_from(CODES),
        "flag": st.booleans(),
    }
    return plain.get(declared.kind, WORDS)


def records(of: type[T], numbers: st.SearchStrategy[float]) -> st.SearchStrategy[T]:
    """Records with some of their inputs typed and the others left as they come."""
    kinds = {name: values(declared, numbers) for name, declared in fields_of(of).items()}
    within = tuple(name for name, declared in fields_of(of).items() if declared.kind == "record")
    which = st.lists(st.sampled_from(tuple(kinds)), unique=True, max_size=12)

    @st.composite
    def made(draw: st.DrawFn) -> T:
        return of(**{name: draw(kinds[name]) for name in dict.fromkeys((*within, *draw(which)))})

    return made()


def suited(numbers: st.SearchStrategy[float]) -> st.SearchStrategy[Appliance]:
    """Appliances whose items do suit one another, so that the sums behind them are reached."""
    more = {"centre": entries(numbers), "top": entries(numbers), "seat": st.sampled_from(("", "seat", "gone"))}

    def one(kind: str) -> st.SearchStrategy[Appliance]:
        ware, frame = ITEMS_OF[kind]
        rails = {
            "rail": st.sampled_from(("", "rail")),
            "drop_rail": st.sampled_from(("", "rail-drop")),
            "back_rest": st.sampled_from(("", "rest")),
        }
        return st.builds(Appliance, kind=st.just(kind), ware=st.just(ware), frame=st.just(frame), **more, **rails)

    return st.sampled_from(KINDS).flatmap(one)


CODES = (
    "",
    "gone",
    "strut-41x21",
    "board-cement-6",
    "tile-600x300-white",
    "pan",
    "basin",
    "frame-wc",
    "frame-basin",
    "seat",
    "plate",
    "tap",
)
PLANS = records(RoomPlan, ODD) | records(RoomPlan, LIKELY)
HUNG = st.lists(suited(ODD), max_size=4) | st.lists(suited(LIKELY), max_size=5)


@given(PLANS, st.none() | HUNG)
@settings(max_examples=100)
def test_nothing_typed_stops_the_working(book: Book, plan: RoomPlan, hung: list[Appliance] | None) -> None:
    if hung is not None:
        plan = put(plan, "design.appliances", tuple(hung))
    rooms = work_out_all(plan, book)
    assert len(rooms) == 1 + len(plan.design.further)
    assert work_out(plan, book) == rooms[0]
    marks = [member.mark for room in rooms for member in room.members]
    assert len(set(marks)) == len(marks)
    for room in rooms:
        sound(room)
        for problem in room.problems:
            describe(RoomPlan, problem.path.removeprefix("rooms.0."))
            assert problem.text
        assert len({(each.path, each.text) for each in room.problems}) == len(room.problems)


def sound(room: Room) -> None:
    """What holds for every room, however odd."""
    for key, figure in room.figures.items():
        assert figure.low <= figure.value <= figure.high, key
        assert worked_again(figure) == figure.value, key
    assert all(member.length.value > 0 for member in room.members)
    assert all(len(run.points) >= 2 for run in room.pipes)
    frames = [(each.left, each.right) for each in room.placed]
    for one, other in pairwise(sorted(each.value for each in room.supports)):
        across = any(left <= (one + other) / 2 <= right for left, right in frames)
        # The upright beside a niche or hatch is moved to its edge, and the next one may then stand a little further off.
        assert other - one <= 400 + 1e-6 or across or room.recesses
    for face in room.faces:
        layers = {piece.where.partition(";")[0] for piece in face.boards}  # what is cut out of a piece is said after it
        covered = sum(piece.width.value * piece.height.value for piece in face.boards)
        half = 0.5 if room.corner is not None and face.key == "shelf" else 1.0  # a triangle, sawn from half of its rectangle
        whole = len(layers) * max(face.width.value, 0) * max(face.height.value, 0) * half
        assert math.isclose(covered, whole, rel_tol=1e-6, abs_tol=1e-3)


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"survey.room.width": Entry(300)}, 4),  # every appliance is wider than the wall, and hot comes in past its end
        ({"design.prewall.run": Entry(0)}, 4),  # bounded to 300, on which nothing hangs
        ({"survey.room.width": Entry(40_000)}, 0),
        ({"survey.floor.build_up.0.thickness": Entry(300)}, 0),  # higher than the feet reach: a check tells
        ({"survey.stack.branch_invert": Entry(3_000)}, 0),  # entry above outlet: a check tells
        ({"design.prewall.depth": Entry(0)}, 0),
    ],
)
def test_awkward_rooms(bathroom: RoomPlan, book: Book, changes: dict[str, Entry], told: int) -> None:
    plan = bathroom
    for path, value in changes.items():
        plan = put(plan, path, value)
    room = work_out(plan, book)
    sound(room)
    assert len(room.problems) == told


def test_everything_blank(book: Book) -> None:
    room = work_out(RoomPlan(), book)
    sound(room)
    assert not room.problems
    assert (room.width.value, room.depth.value, room.top.value) == (1800, 225, 1200)


def test_all_appliances_blank(book: Book) -> None:
    room = work_out(put(RoomPlan(), "design.appliances", (Appliance(), Appliance(kind="basin"))), book)
    assert not room.placed
    assert [each.path for each in room.problems] == [
        f"rooms.0.design.appliances.{place}.{name}" for place in (0, 1) for name in ("ware", "frame")
    ]


def test_a_trader_who_overrules_a_figure_to_nothing_still_gets_a_room(bathroom: RoomPlan, book: Book) -> None:
    for key, figure in book.figures.items():
        overruled = replace(book, figures={**book.figures, key: replace(figure, value=0.0, changed="2026-11-30")})
        assert work_out(put(bathroom, "design.appliances.1.centre", Entry(150)), overruled).members


def test_a_layer_named_by_nobody(bathroom: RoomPlan, book: Book) -> None:
    room = work_out(put(bathroom, "survey.floor.build_up", (Layer(thickness=Entry(5)), Layer())), book)
    assert [term.figure.label for term in room.finished_floor.terms] == ["Layer 1", "Layer 2"]
    assert room.finished_floor.tbc  # the second layer's thickness is the usual one
