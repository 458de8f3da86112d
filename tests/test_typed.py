"""What was typed into a box, and what a box shows."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tundish.estimate import Job
from tundish.field import Entry, Field, describe
from tundish.figure import Known
from tundish.typed import disagreement, shown, taken

INVERT = describe(Job, "rooms.0.survey.stack.branch_invert")
WIDTH = describe(Job, "rooms.0.survey.room.width")
RATE = describe(Job, "terms.labour_rate")
START = describe(Job, "terms.start")
PARTY = describe(Job, "rooms.0.survey.wall.party")
NAME = describe(Job, "client.name")


def test_a_number_keeps_how_the_input_is_known() -> None:
    assert taken(INVERT, "176", None) == (Entry(176, Known.MEASURED), "")
    noted = Entry(170, Known.MEASURED, note="by the door", when="2026-11-09")
    assert taken(INVERT, "176", noted) == (Entry(176, Known.MEASURED, note="by the door", when="2026-11-09"), "")


def test_a_usual_size_typed_over_is_not_assumed_any_more() -> None:
    value, _ = taken(INVERT, "176", Entry(170, Known.ASSUMED))
    assert isinstance(value, Entry)
    assert value.known is Known.MEASURED


def test_a_range_is_to_be_confirmed_until_one_number_is_typed() -> None:
    value, problem = taken(INVERT, "8 to 12", None)
    assert isinstance(value, Entry)
    assert (value.value, value.low, value.high, value.tbc, problem) == (10, 8, 12, True, "")
    settled, _ = taken(INVERT, "9", value)
    assert isinstance(settled, Entry)
    assert (settled.value, settled.low, settled.high, settled.tbc) == (9, None, None, False)


def test_a_confirmed_doubt_stays_when_the_number_changes() -> None:
    value, _ = taken(INVERT, "180", Entry(176, tbc=True))
    assert isinstance(value, Entry)
    assert value.tbc


def test_a_sum_is_kept_as_it_was_typed() -> None:
    value, _ = taken(INVERT, "100+76", None)
    assert isinstance(value, Entry)
    assert (value.value, value.typed) == (176, "100+76")


def test_the_least_of_several_readings_is_used_and_all_are_kept() -> None:
    value, problem = taken(WIDTH, "2380 2376 2383", None)
    assert isinstance(value, Entry)
    assert (value.value, value.readings, value.typed, problem) == (2376, (2380, 2376, 2383), "2380 2376 2383", "")
    assert disagreement(WIDTH, value) == "Three widths, 2,380, 2,376, 2,383. Using 2,376, the least."
    again, _ = taken(WIDTH, "2381", value)
    assert isinstance(again, Entry)
    assert (again.value, again.readings, disagreement(WIDTH, again)) == (2381, (), "")


def test_readings_that_agree_say_nothing_and_others_are_called_readings() -> None:
    assert disagreement(WIDTH, Entry(2376, readings=(2376, 2376))) == ""
    assert disagreement(INVERT, Entry(178, readings=(176, 178))) == "Two readings, 176, 178. Using 178."


def test_readings_settle_a_range() -> None:
    ranged, _ = taken(INVERT, "8 to 12", None)
    value, _ = taken(INVERT, "10; 11", ranged)
    assert isinstance(value, Entry)
    assert (value.value, value.low, value.tbc) == (10, None, False)


@pytest.mark.parametrize(
    ("declared", "words", "value"),
    [
        (INVERT, "  ", None),
        (RATE, "£41.50", Decimal("41.50")),
        (START, "30 Nov 2026", "2026-11-30"),
        (START, "", ""),
        (PARTY, "yes", True),
        (PARTY, "no", False),
        (NAME, "Mrs <b>", "Mrs <b>"),
    ],
)
def test_each_kind_of_input_is_read(declared: Field, words: str, value: object) -> None:
    assert taken(declared, words, None) == (value, "")


@pytest.mark.parametrize(("declared", "words"), [(INVERT, "deep"), (INVERT, "176; deep"), (RATE, "a lot"), (START, "tomorrow")])
def test_nonsense_is_told(declared: Field, words: str) -> None:
    assert taken(declared, words, None)[1] != ""


@pytest.mark.parametrize(
    ("declared", "value", "words"),
    [
        (INVERT, Entry(1176), "1,176"),
        (INVERT, Entry(10, low=8, high=12), "8 to 12"),
        (INVERT, None, ""),
        (RATE, Decimal("41.5"), "41.50"),
        (START, "2026-11-30", "Mon 30 Nov 2026"),
        (START, "", ""),
        (PARTY, True, "yes"),
        (PARTY, False, "no"),
        (NAME, "Ann", "Ann"),
    ],
)
def test_a_box_shows_the_value_alone(declared: Field, value: object, words: str) -> None:
    assert shown(declared, value) == words


@pytest.mark.parametrize(
    ("words", "value"),
    [
        ("brick", "brick"),
        ("brick or block", ("brick", "block")),
        ("brick or block or concrete", ("brick", "block", "concrete")),
        ("2000 or later", "2000 or later"),
        ("before 2000 or 2000 or later", ("before 2000", "2000 or later")),
    ],
)
def test_a_choice_typed_as_this_or_that_is_several(words: str, value: object) -> None:
    declared = Field("choice", "Choice", options=("brick", "block", "concrete", "before 2000", "2000 or later"))
    assert taken(declared, words, "") == (value, "")


def test_items_are_left_open_by_their_codes() -> None:
    assert taken(Field("item", "Tile"), "tile-a or tile-b", "") == (("tile-a", "tile-b"), "")
