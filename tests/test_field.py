"""Inputs are declared once and found, changed and read by path."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import FrozenInstanceError, dataclass, replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.field import (
    Entry,
    Field,
    NoSuchInputError,
    added,
    amount,
    choice,
    date,
    describe,
    fields_of,
    flag,
    get,
    item,
    length,
    money,
    must_read,
    put,
    read,
    record,
    records,
    removed,
    text,
    walk,
)
from tundish.figure import Known
from tundish.pricing.terms import Terms


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer of a floor."""

    name: str = text("Layer")
    thick: Entry | None = length("Thickness", most=200, usual=10)


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """A floor."""

    kind: str = choice("Floor", ("boards", "screed"))
    layers: tuple[Layer, ...] = records("Build-up", Layer)


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A room, with a key that nobody types."""

    name: str = text("Name", "As the client calls it.", "Bathroom")
    width: Entry | None = length("Width", least=500, likely=(900, 6000), help="To the plaster.")
    pressure: Entry | None = amount("Pressure", "bar", most=16)
    floor: Floor = record("Floor", Floor)
    other: Floor = record("Other floor", Floor)
    layers: tuple[Layer, ...] = records("Layers of the wall", Layer)
    tile: str = item("Tile", ("tile",), "From the catalogue.")
    heated: bool = flag("Heated floor", default=True)
    planned: str = date("Planned for")
    sum: Decimal | None = money("Provisional sum", most=5000)
    key: int = 0


ROOM = Room(
    width=Entry(2380),
    floor=Floor(kind="screed", layers=(Layer(name="board", thick=Entry(6)), Layer(name="tile"))),
    layers=(Layer(name="plaster"), Layer(name="board"), Layer(name="bed")),
)
PATHS = [path for path, _, _ in walk(ROOM)]
NOWHERE = [
    "",
    ".",
    "depth",
    "width.",
    "width.value",
    "name.0",
    "floor.",
    "floor.depth",
    "floor.layers.0.depth",
    "floor.layers.name",
    "floor.layers.x",
    "floor.layers.-1",
    "floor.layers.٣",
    "floor.layers.0.0",
    "floor.layers." + "9" * 5000,
    "key",
    "floor.0",
]


@pytest.mark.parametrize(
    ("name", "declared", "default"),
    [
        ("name", Field("text", "Name", "As the client calls it."), "Bathroom"),
        ("width", Field("number", "Width", "To the plaster.", "mm", 500, 20_000, (900, 6000)), None),
        ("pressure", Field("number", "Pressure", "", "bar", 0, 16), None),
        ("floor", Field("record", "Floor", of=Floor), Floor()),
        ("layers", Field("records", "Layers of the wall", of=Layer), ()),
        ("tile", Field("item", "Tile", "From the catalogue.", options=("tile",)), ""),
        ("heated", Field("flag", "Heated floor"), True),
        ("planned", Field("date", "Planned for"), ""),
        ("sum", Field("money", "Provisional sum", "", "£", 0, 5000), None),
    ],
)
def test_a_declaration_says_all_there_is_to_say(name: str, declared: Field, default: object) -> None:
    assert fields_of(Room)[name] == declared
    assert getattr(Room(), name) == default


def test_inputs_come_in_the_order_of_declaration_and_nothing_else_is_one() -> None:
    expected = ["name", "width", "pressure", "floor", "other", "layers", "tile", "heated", "planned", "sum"]
    assert list(fields_of(Room)) == expected
    assert not fields_of(Entry)


def test_a_choice_starts_as_its_first_option_unless_told() -> None:
    @dataclass(frozen=True)
    class Wall:
        built: str = choice("Built", ("brick", "stud"))
        side: str = choice("Side", ("left", "right"), "Looking at it.", "right")

    assert (Wall().built, Wall().side) == ("brick", "right")
    assert fields_of(Wall)["side"].help == "Looking at it."


def test_a_record_cannot_be_changed_in_place() -> None:
    with pytest.raises(FrozenInstanceError):
        ROOM.name = "Cloakroom"  # type: ignore[misc] # that is the test


@pytest.mark.parametrize(
    ("path", "kind", "label"),
    [
        ("width", "number", "Width"),
        ("floor", "record", "Floor"),
        ("floor.kind", "choice", "Floor"),
        ("floor.layers", "records", "Build-up"),
        ("floor.layers.7", "record", "Build-up"),
        ("floor.layers.7.thick", "number", "Thickness"),
    ],
)
def test_a_path_leads_to_its_declaration(path: str, kind: str, label: str) -> None:
    assert (describe(Room, path).kind, describe(Room, path).label) == (kind, label)


@pytest.mark.parametrize("path", NOWHERE)
def test_a_path_that_leads_nowhere_is_named(path: str) -> None:
    faults: list[Callable[[], object]] = [
        lambda: get(ROOM, path),
        lambda: put(ROOM, path, None),
        lambda: added(ROOM, path, None),
        lambda: removed(ROOM, path, 0),
        lambda: describe(Room, path),
    ]
    for fault in faults:
        with pytest.raises(NoSuchInputError) as told:
            fault()
        assert str(told.value) == f"there is no input called {path}"


def test_a_row_that_is_not_there_is_no_input() -> None:
    for path in ("floor.layers.2", "floor.layers.2.name"):
        with pytest.raises(NoSuchInputError):
            get(ROOM, path)
        with pytest.raises(NoSuchInputError):
            put(ROOM, path, "x")


def test_every_input_is_walked_once_with_its_declaration_and_value() -> None:
    expected = [
        *("name", "width", "pressure", "floor.kind"),
        *("floor.layers.0.name", "floor.layers.0.thick", "floor.layers.1.name", "floor.layers.1.thick", "other.kind"),
        *("layers.0.name", "layers.0.thick", "layers.1.name", "layers.1.thick", "layers.2.name", "layers.2.thick"),
        *("tile", "heated", "planned", "sum"),
    ]
    assert expected == PATHS
    for path, declared, value in walk(ROOM):
        assert describe(Room, path) is declared
        assert get(ROOM, path) is value
    assert next(path for path, _, _ in walk(ROOM.floor, "rooms.0.floor")) == "rooms.0.floor.kind"


@given(st.sampled_from(PATHS))
def test_putting_changes_one_input_and_leaves_every_other_object_alone(path: str) -> None:
    mark = object()
    after = put(ROOM, path, mark)
    assert get(after, path) is mark
    assert get(ROOM, path) is not mark
    for other, _, value in walk(ROOM):
        assert other == path or get(after, other) is value
    words = path.split(".")
    parts = [".".join(words[:count]) for count in range(1, len(words))]
    for beside in ("floor", "other", "layers", "floor.layers", "floor.layers.0", "floor.layers.1", "layers.0", "layers.1", "layers.2"):
        assert (get(after, beside) is get(ROOM, beside)) == (beside not in parts)
    assert put(after, path, get(ROOM, path)) == ROOM


def test_a_whole_record_or_list_may_be_put() -> None:
    assert put(ROOM, "floor", Floor()).floor == Floor()
    assert put(ROOM, "layers", ()).layers == ()
    assert put(ROOM, "layers.1", Layer(name="new")).layers[1].name == "new"
    assert put(ROOM.layers, "0.name", "x")[0].name == "x"


def test_rows_are_added_and_removed() -> None:
    more = added(ROOM, "floor.layers", Layer(name="last"))
    assert [layer.name for layer in more.floor.layers] == ["board", "tile", "last"]
    assert more.layers is ROOM.layers
    assert more.floor.layers[0] is ROOM.floor.layers[0]
    assert removed(more, "floor.layers", 2) == ROOM
    assert [layer.name for layer in removed(ROOM, "layers", 0).layers] == ["board", "bed"]


@pytest.mark.parametrize("path", ["name", "width", "floor", "planned"])
def test_only_a_list_takes_and_loses_rows(path: str) -> None:
    with pytest.raises(NoSuchInputError, match=path):
        added(ROOM, path, "x")
    with pytest.raises(NoSuchInputError, match=path):
        removed(ROOM, path, 0)


@pytest.mark.parametrize("place", [-1, 3])
def test_a_row_that_is_not_there_cannot_be_removed(place: int) -> None:
    with pytest.raises(NoSuchInputError, match=f"layers.{place}"):
        removed(ROOM, "layers", place)


@pytest.mark.parametrize(
    ("entry", "low", "high", "tbc", "known"),
    [
        (Entry(2380), 2380, 2380, False, Known.MEASURED),
        (Entry(2380, low=2370), 2370, 2380, True, Known.MEASURED),
        (Entry(2380, high=2390), 2380, 2390, True, Known.MEASURED),
        (Entry(2380, low=2380, high=2380), 2380, 2380, False, Known.MEASURED),
        (Entry(2380, low=2400, high=2300), 2380, 2380, False, Known.MEASURED),
        (Entry(2380, tbc=True), 2380, 2380, True, Known.MEASURED),
        (Entry(2380, Known.ASSUMED), 2380, 2380, True, Known.ASSUMED),
        (Entry(2380, Known.AGREED), 2380, 2380, False, Known.AGREED),
    ],
)
def test_an_input_is_read_as_a_figure_that_knows_how_it_is_known(entry: Entry, low: float, high: float, tbc: bool, known: Known) -> None:
    figure = read(replace(ROOM, width=replace(entry, note="twice", when="2026-11-12")), "width", "rooms.0.survey")
    assert figure is not None
    assert (figure.low, figure.value, figure.high, figure.tbc, figure.known) == (low, 2380, high, tbc, known)
    assert (figure.unit, figure.label, figure.note, figure.when) == ("mm", "Width", "twice", "2026-11-12")
    assert figure.path == "rooms.0.survey.width"
    assert not figure.terms


def test_a_blank_input_is_its_usual_size_and_says_so() -> None:
    usual = must_read(Layer(), "thick")
    assert (usual.value, usual.known, usual.tbc, usual.note, usual.path) == (10, Known.ASSUMED, True, "usual size", "thick")


def test_a_blank_rate_is_the_usual_rate_and_nothing_to_be_confirmed() -> None:
    usual = must_read(Terms(), "contingency")
    assert (usual.value, usual.known, usual.tbc, usual.note) == (0, Known.RATE, False, "usual")
    assert read(Room(), "width") is None


@pytest.mark.parametrize(("path", "told"), [("", "called width"), ("rooms.0", r"called rooms\.0\.width")])
def test_what_must_be_read_and_is_blank_without_a_usual_size_is_a_fault_of_the_program(path: str, told: str) -> None:
    with pytest.raises(NoSuchInputError, match=told):
        must_read(Room(), "width", path)


@pytest.mark.parametrize("name", ["name", "depth", "floor"])
def test_only_numbers_are_read_as_figures(name: str) -> None:
    with pytest.raises(NoSuchInputError, match=f"rooms.0.{name}"):
        read(ROOM, name, "rooms.0")
