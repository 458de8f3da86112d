"""Heights for those who use a room, by the supplied rule book."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tundish.catalogue.load import supplied_book
from tundish.field import Entry, put
from tundish.figure import Known
from tundish.layout.design import KINDS, PEOPLE, Appliance, RoomPlan, User
from tundish.layout.people import advised
from tundish.layout.work_out import work_out

BOOK = supplied_book()


def advice(kind: str, *people: str) -> tuple[float, float, bool]:
    found = advised(kind, [User(name=who.capitalize(), person=who) for who in people], BOOK)
    assert found is not None
    return found.least, found.most, found.agree


@pytest.mark.parametrize(
    ("kind", "people", "expected"),
    [
        ("wc", ("adult",), (420, 440, True)),
        ("wc", ("adult", "older person"), (430, 440, True)),  # 420 to 440 and 430 to 480
        ("bidet", ("adult",), (420, 440, True)),  # level with the pan
        ("basin", ("wheelchair user",), (780, 800, True)),
        ("wc", ("adult", "wheelchair user"), (440, 480, False)),  # 480 is over the 440 of the other
        ("basin", ("child 3-4", "tall adult"), (610, 850, False)),
    ],
)
def test_what_suits_all_who_use_it_or_lies_between_them(kind: str, people: tuple[str, ...], expected: tuple[float, float, bool]) -> None:
    assert advice(kind, *people) == expected


def test_nobody_and_what_has_no_height_for_anybody_is_not_advised() -> None:
    assert advised("wc", (), BOOK) is None
    assert advised("shower valve", (User(person="adult"),), BOOK) is None
    assert advised("urinal", (User(person="older person"),), BOOK) is None


def test_whose_it_is_is_said() -> None:
    found = advised("wc", (User(name="Ann", person="adult"), User(person="child 3-4")), BOOK)
    assert found is not None
    assert found.words == "nothing suits all; between them 305 to 420 for Ann, user 2, child 3-4"


def test_a_blank_top_is_the_middle_of_what_is_advised_and_open_over_all_of_it() -> None:
    seat = BOOK.item("seat-ondel-soft").size("thickness").value
    hung = Appliance(kind="wc", ware="pan-ondel-530", frame="frame-wc-1120", seat="seat-ondel-soft")
    plan = put(put(RoomPlan(), "design.appliances", (hung,)), "design.users", (User(name="Nan", person="older person"),))
    top = work_out(plan, BOOK).placed[0].figures["top"]
    assert (top.low, top.value, top.high) == (430 - seat, 455 - seat, 480 - seat)
    assert top.tbc
    asked = top.terms[-1].figure
    assert asked.label == "Top of pan, finished floor"
    assert "for Nan" in asked.terms[0].figure.note
    assert asked.terms[0].figure.known is Known.ASSUMED


def test_a_height_that_was_agreed_stays() -> None:
    hung = Appliance(kind="basin", ware="basin-fethan-500", frame="frame-basin-1120", top=Entry(820))
    plan = put(put(RoomPlan(), "design.appliances", (hung,)), "design.users", (User(person="wheelchair user"),))
    assert work_out(plan, BOOK).placed[0].figures["top"].value == 820


@pytest.mark.parametrize("person", PEOPLE)
def test_everybody_has_a_seat_and_a_basin_and_least_is_not_over_most(person: str) -> None:
    for kind in ("wc", "basin"):
        found = advised(kind, (User(person=person),), BOOK)
        assert found is not None
        assert found.agree


def test_every_kind_can_be_asked() -> None:
    for kind in KINDS:
        found = advised(kind, (replace(User(), person="adult"),), BOOK)
        assert found is None or found.least <= found.most
