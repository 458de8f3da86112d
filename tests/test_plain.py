"""Plain data in and out: whole or not at all, every fault named, and nothing that a file may hold brings it down."""

from __future__ import annotations

import json
import math
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from tundish.field import Entry, Field, Problem, amount, choice, date, fields_of, flag, item, length, money, record, records, text
from tundish.figure import Known
from tundish.plain import MOST_ROWS, MOST_WORDS, check, from_plain, schema, to_plain


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer of a floor."""

    name: str = text("Layer")
    thick: Entry | None = length("Thickness", most=200, usual=10, help="As it will lie.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """A floor."""

    kind: str = choice("Floor", ("boards", "screed"))
    layers: tuple[Layer, ...] = records("Build-up", Layer)


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A room with an input of every kind."""

    name: str = text("Name", default="Bathroom")
    width: Entry | None = length("Width", least=500, most=20_000, known=Known.MAKER)
    pans: Entry | None = amount("Pans", "each", most=20, whole=True)
    share: Entry | None = amount("Share", "", least=None, most=None)
    floor: Floor = record("Floor", Floor)
    other: Floor = record("Other floor", Floor)
    tile: str = item("Tile", ("tile",))
    heated: bool = flag("Heated floor", default=True)
    planned: str = date("Planned for")
    sum: Decimal | None = money("Provisional sum", most=5000)


WRITABLE = st.text(st.characters(exclude_categories=("Cs", "Cc"), exclude_characters="\ufffe\uffff"), max_size=8)
DAYS = st.just("") | st.dates().map(str)


@st.composite
def entries(draw: st.DrawFn, least: float, most: float) -> Entry:
    low, value, high = sorted(draw(st.tuples(*[st.floats(least, most)] * 3)))
    return Entry(
        value,
        draw(st.sampled_from(Known)),
        draw(st.none() | st.just(low)),
        draw(st.none() | st.just(high)),
        draw(st.booleans()),
        draw(WRITABLE),
        draw(DAYS),
        draw(WRITABLE),
        tuple(draw(st.lists(st.floats(least, most), max_size=2))),
    )


LAYERS = st.builds(Layer, name=WRITABLE, thick=st.none() | entries(0, 200))
FLOORS = st.builds(Floor, kind=st.sampled_from(["boards", "screed"]), layers=st.lists(LAYERS, max_size=2).map(tuple))
ROOMS = st.builds(
    Room,
    name=WRITABLE,
    width=st.none() | entries(500, 20_000),
    pans=st.none() | st.integers(0, 20).map(lambda count: Entry(float(count))),
    share=st.none() | entries(-1e300, 1e300),
    floor=FLOORS,
    other=st.just(Floor()),
    tile=WRITABLE,
    heated=st.booleans(),
    planned=DAYS,
    sum=st.none() | st.decimals(0, 5000, places=3),
)
JSON = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.sampled_from([10**400, -(10**400), "38.50", "1e999999", "NaN", "1_0", "2026-12-03", "boards", "\ud800", "\x00", " 1", "measured"])
    | st.floats()
    | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner, max_size=3),
    max_leaves=5,
)
ENTRIES_OF_JSON = st.dictionaries(
    st.sampled_from(["value", "low", "high", "known", "tbc", "note", "when", "typed", "readings", "\ud800"]), JSON
)
ROOMS_OF_JSON = JSON | st.dictionaries(
    st.sampled_from([*fields_of(Room), "age"]),
    JSON
    | ENTRIES_OF_JSON
    | st.fixed_dictionaries({"layers": st.lists(st.fixed_dictionaries({"thick": ENTRIES_OF_JSON | JSON}), max_size=2)}),
    max_size=4,
)


@cache
def validator() -> Any:
    return Draft202012Validator(schema(Room))


@given(ROOMS)
def test_a_record_written_and_read_again_is_the_same_record(room: Room) -> None:
    plain = to_plain(room)
    assert from_plain(Room, plain) == (room, (), {})
    assert from_plain(Room, json.loads(json.dumps(plain))) == (room, (), {})
    validator().validate(plain)


@given(ROOMS_OF_JSON)
def test_anything_a_file_may_hold_is_read_whole_or_refused_in_words(plain: object) -> None:
    room, problems, unknown = from_plain(Room, plain, "rooms.0")
    assert (room is None) == bool(problems)
    for problem in problems:
        assert problem.path.startswith("rooms.0")
        assert 5 < len(problem.text) < 300
        (problem.path + problem.text).encode()
    assert all(where.startswith("rooms.0.") for where in unknown)
    if room is not None:
        assert from_plain(Room, to_plain(room)) == (room, (), {})
        validator().validate(plain)


@given(st.sampled_from(list(fields_of(Room).values())), JSON | ENTRIES_OF_JSON)
def test_one_input_takes_a_value_or_says_why_not(declared: Field, value: object) -> None:
    taken, problems = check(declared, value, "here")
    assert not problems or taken is None
    if not problems and declared.kind not in {"record", "records"}:
        assert check(declared, taken, "here") == (taken, ())


def test_what_is_blank_or_as_declared_is_left_out() -> None:
    assert to_plain(Room()) == {}
    assert from_plain(Room, {}) == (Room(), (), {})
    assert to_plain(Room(name="", heated=False, sum=Decimal("1E+2"))) == {"name": "", "heated": False, "sum": "100"}
    assert to_plain(Room(floor=Floor(layers=(Layer(), Layer(name="tile"))))) == {"floor": {"layers": [{}, {"name": "tile"}]}}


def test_a_number_keeps_only_what_was_said_of_it() -> None:
    width = Entry(2380.0, Known.MEASURED, high=2390.5, typed="2.38 m", readings=(2380.0, 2383.5))
    plain = to_plain(Room(width=width))["width"]
    assert plain == {"value": 2380, "known": "measured", "high": 2390.5, "typed": "2.38 m", "readings": [2380, 2383.5]}
    assert isinstance(plain, dict)
    assert {name: type(value) for name, value in plain.items()} == {
        "value": int,
        "known": str,
        "high": float,
        "typed": str,
        "readings": list,
    }


def test_a_bare_number_is_known_as_its_input_says() -> None:
    room, problems, _ = from_plain(Room, {"width": 2380, "pans": {"value": 2}, "share": None})
    assert not problems
    assert room is not None
    assert room.width == Entry(2380.0, Known.MAKER)
    assert room.pans == Entry(2.0, Known.MEASURED)
    assert room.share is None


def test_every_fault_is_named_at_once_and_nothing_is_half_read() -> None:
    room, problems, unknown = from_plain(
        Room,
        {
            "name": 7,
            "width": {"value": "wide", "known": "guess", "tbc": 1, "when": "soon", "readings": [1, "x"], "colour": "red"},
            "pans": 2.5,
            "floor": {"kind": "lino", "layers": [{"thick": 300}, "tile", {"thick": {"low": 5}}], "age": 3},
            "heated": "yes",
            "planned": "3 Dec",
            "sum": "dear",
            "rent": 12,
        },
        "rooms.2",
    )
    assert room is None
    assert unknown == {"rooms.2.floor.age": 3, "rooms.2.rent": 12}
    assert {problem.path.removeprefix("rooms.2."): problem.text for problem in problems} == {
        "name": 'Name should be words, not "7"',
        "width.colour": "is not known here; a number has value, known, low, high, tbc, note, when, typed, readings",
        "width.value": 'should be a number, not "wide"',
        "width.known": '"guess" is not one of: measured, maker\'s sheet, agreed, rule, own rate, typed, worked out, assumed',
        "width.when": 'when: "soon" is not a day such as 2026-11-30',
        "width.tbc": 'tbc should be true or false, not "1"',
        "width.readings.1": 'should be a number, not "x"',
        "pans": "Pans: 2.5 each should be a whole number",
        "floor.kind": 'Floor: "lino" is not one of: boards, screed',
        "floor.layers.0.thick": "Thickness: 300 mm is over the most, 200 mm",
        "floor.layers.1": 'should be a group of named values, not "tile"',
        "floor.layers.2.thick.value": "is missing: a number is needed here",
        "heated": 'Heated floor should be true or false, not "yes"',
        "planned": 'Planned for: "3 Dec" is not a day such as 2026-11-30',
        "sum": 'Provisional sum: "dear" is not an amount of money such as 38.50',
    }
    assert len(problems) == 15


def test_what_is_not_known_is_kept_aside_and_breaks_nothing() -> None:
    room, problems, unknown = from_plain(Room, {"name": "Cloakroom", "floor": {"colour": [1]}, "from": "later"})
    assert room == Room(name="Cloakroom")
    assert not problems
    assert unknown == {"floor.colour": [1], "from": "later"}


@pytest.mark.parametrize(
    ("name", "value", "told"),
    [
        ("width", 499.5, "Width: 499.5 mm is under the least, 500 mm"),
        ("width", 20_000.004, "Width: 20,000.004 mm is over the most, 20,000 mm"),
        ("width", {"value": 600, "low": 400}, "Width: 400 mm is under the least, 500 mm"),
        ("width", {"value": 600, "low": 700}, "Width: 600 is not between 700 and 600"),
        ("width", {"value": 600, "high": 550}, "Width: 600 is not between 600 and 550"),
        ("width", Entry(math.nan), "Width: nan is not a number that can be measured"),
        ("width", Entry(600, low=-math.inf), "Width: -inf is not a number that can be measured"),
        ("width", math.inf, "inf is not a number that can be measured"),
        ("width", True, 'should be a number, not "True"'),
        ("width", {"value": 600, "readings": 5}, 'should be a short list of numbers, not "5"'),
        ("width", {"value": 600, "readings": [600] * (MOST_ROWS + 1)}, "should be a short list of numbers, not a list"),
        ("pans", {"value": 2, "high": 2.5}, "Pans: 2.5 each should be a whole number"),
        ("pans", Entry(math.nan), "Pans: nan is not a number that can be measured"),
        ("name", "x" * (MOST_WORDS + 1), "Name is 20,001 characters long; at most 20,000"),
        ("name", "a\x00b", "Name holds a character that cannot be written, at place 2"),
        ("name", "\ud800", "Name holds a character that cannot be written, at place 1"),
        ("name", None, "Name should be words, not nothing"),
        ("tile", ["a"], "Tile should be words, not a list"),
        ("planned", {"day": 3}, "Planned for: a group is not a day such as 2026-11-30"),
        ("planned", 20261203, 'Planned for: "20261203" is not a day such as 2026-11-30'),
        ("sum", "5000.01", 'Provisional sum: "5000.01" is not between £0.00 and £5,000.00'),
        ("sum", -1, 'Provisional sum: "-1" is not between £0.00 and £5,000.00'),
        ("sum", Decimal("NaN"), 'Provisional sum: "NaN" is not an amount'),
        ("sum", math.inf, 'Provisional sum: "inf" is not an amount'),
        ("sum", False, 'Provisional sum: "False" is not an amount'),
        ("sum", "1_000", 'Provisional sum: "1_000" is not an amount'),
        ("sum", "1e3", 'Provisional sum: "1e3" is not an amount'),
        ("sum", [1], "Provisional sum: a list is not an amount"),
        ("heated", "x" * 60, 'Heated floor should be true or false, not "' + "x" * 40 + '…"'),
        ("floor", [], "should be a group of named values, not a list"),
        ("floor", {"layers": {}}, "should be a list, not a group"),
        ("floor", {"layers": [{}] * (MOST_ROWS + 1)}, "has 2,001 rows; at most 2,000 can be read"),
        ("floor", {"colour": "red"}, "is not known here"),
        ("floor", "a\ud800b", 'should be a group of named values, not "a�b"'),
    ],
)
def test_a_value_that_cannot_stand_is_refused_in_words(name: str, value: object, told: str) -> None:
    taken, problems = check(fields_of(Room)[name], value, "here")
    assert taken is None
    assert [problem.text[: len(told)] for problem in problems] == [told]
    assert problems[0].path.startswith("here")


def test_a_number_of_thousands_of_digits_is_refused_unspoken() -> None:
    long = 10**5000
    expected = {
        "width": "inf is not a number that can be measured",
        "name": "Name should be words, not a number that long",
        "sum": "Provisional sum: a number that long is not between £0.00 and £5,000.00",
    }
    _, problems, _ = from_plain(Room, dict.fromkeys(expected, long))
    assert {problem.path: problem.text for problem in problems} == expected


def test_a_range_wholly_outside_is_refused_end_by_end() -> None:
    _, problems = check(fields_of(Room)["width"], Entry(100, low=50, high=30_000), "width")
    assert [problem.path for problem in problems] == ["width", "width.low", "width.high"]


@pytest.mark.parametrize(
    ("name", "value", "taken"),
    [
        ("width", 500, Entry(500.0, Known.MAKER)),
        ("width", Entry(20_000), Entry(20_000)),
        ("width", None, None),
        ("share", -1e300, Entry(-1e300)),
        ("name", "two\nlines\tand é", "two\nlines\tand é"),
        ("planned", "20261203", "2026-12-03"),
        ("planned", "", ""),
        ("sum", 38, Decimal(38)),
        ("sum", 0.1, Decimal("0.1")),
        ("sum", "4999.995", Decimal("4999.995")),
        ("sum", Decimal("38.5"), Decimal("38.5")),
        ("sum", None, None),
        ("heated", False, False),
        ("floor", {"kind": "screed"}, Floor(kind="screed")),
    ],
)
def test_a_value_that_can_stand_is_taken(name: str, value: object, taken: object) -> None:
    assert check(fields_of(Room)[name], value, "here") == (taken, ())


def test_a_list_of_records_is_checked_like_any_input() -> None:
    layers = fields_of(Floor)["layers"]
    assert check(layers, [{"name": "tile"}], "here") == ((Layer(name="tile"),), ())
    assert check(layers, [{"name": 1}], "here") == (None, (Problem("here.0.name", 'Layer should be words, not "1"'),))


def test_the_schema_is_one_and_says_what_the_declarations_say() -> None:
    made = schema(Room)
    Draft202012Validator.check_schema(made)
    json.dumps(made)
    properties: Any = made["properties"]
    assert list(properties) == list(fields_of(Room))
    assert properties["floor"]["properties"]["kind"]["enum"] == ["boards", "screed"]
    thick = properties["floor"]["properties"]["layers"]["items"]["properties"]["thick"]
    assert (thick["title"], thick["description"]) == ("Thickness", "As it will lie.")
    assert thick["anyOf"][0] == {"type": "number", "description": "in mm", "minimum": 0, "maximum": 200}
    assert properties["pans"]["anyOf"][0]["type"] == "integer"
    assert properties["share"]["anyOf"][0] == {"type": "number"}


@pytest.mark.parametrize(
    "plain",
    [
        {"name": 7},
        {"width": 499},
        {"width": {"low": 600}},
        {"width": {"value": 600, "colour": "red"}},
        {"pans": 2.5},
        {"floor": {"kind": "lino"}},
        {"floor": {"layers": [{"thick": 201}]}},
        {"heated": 1},
        {"planned": 3},
        {"sum": "dear"},
        {"sum": 5001},
        [],
    ],
)
def test_the_schema_refuses_what_the_program_refuses(plain: object) -> None:
    assert from_plain(Room, plain)[1]
    assert not validator().is_valid(plain)
