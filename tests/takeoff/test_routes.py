"""Where a discharge could go: each way is the room worked out with it, and the best comes first."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from tundish.catalogue.load import supplied_book
from tundish.field import put
from tundish.layout.design import RoomPlan
from tundish.layout.work_out import work_out
from tundish.plain import from_plain
from tundish.takeoff.routes import Route, routes

PLAIN = Path(__file__).parents[1] / "rules" / "rooms" / "plain.toml"


def plan(**entry: Any) -> RoomPlan:
    """The plain room with one other waste entry, if any."""
    plain = tomllib.loads(PLAIN.read_text(encoding="utf-8"))
    if entry:
        plain["survey"]["entries"] = [entry]
    made, problems, _ = from_plain(RoomPlan, plain)
    assert made is not None, problems
    return made


def of(appliance: str, found: tuple[Route, ...]) -> list[Route]:
    return [each for each in found if each.appliance == appliance]


def test_with_the_stack_alone_there_is_nothing_to_compare() -> None:
    assert routes(plan(), supplied_book()) == ()


def test_the_nearer_entry_comes_first_for_a_basin() -> None:
    found = of("Basin 1", routes(plan(name="Old waste", size="40", from_left=2300, invert=530), supplied_book()))
    assert [(each.to, each.chosen) for each in found] == [("Old waste", False), ("", True)]
    best, stack = found
    assert (best.run.run.value, stack.run.run.value) == (700, 1450)
    assert best.spare == pytest.approx(0.286, abs=0.001)  # 12.8 over 0.7 m is 18.286 a metre, of 18
    assert stack.spare == 2  # 20 a metre, within 18 and 22
    assert best.price < stack.price
    assert best.words.startswith("Old waste: 700 long, 0.3 of fall to spare, 2 bends, ")


def test_a_way_that_fails_comes_last_however_cheap_it_is() -> None:
    found = of("Basin 1", routes(plan(name="Old waste", size="40", from_left=1700, invert=600), supplied_book()))
    assert [each.to for each in found] == ["", "Old waste"]
    assert found[1].price < found[0].price
    assert "Fall of waste" in found[1].fails
    assert "fails: " in found[1].words


def test_a_pan_is_not_led_into_a_waste_pipe() -> None:
    stack, waste = of("WC 1", routes(plan(name="Old waste", size="40", from_left=1000, invert=150), supplied_book()))
    assert (stack.to, waste.to) == ("", "Old waste")
    assert "Entry takes the pipe" in waste.fails


def test_each_way_is_the_room_worked_out_with_it() -> None:
    job, book = plan(name="Old waste", size="40", from_left=2300, invert=400), supplied_book()
    (way,) = [each for each in of("Basin 1", routes(job, book)) if each.to]
    room = work_out(put(job, "design.appliances.1.drains_to", "Old waste"), book)
    (run,) = room.pipes_of("waste")
    assert way.run == run


def test_price_is_of_pipe_and_fittings_at_the_least_offered() -> None:
    book = supplied_book()
    (way,) = [each for each in of("Basin 1", routes(plan(name="Old waste", size="32", from_left=2300, invert=530), book)) if each.to]
    least = {
        code: min(each.price / Decimal(str(each.pack)) for each in book.offers[code])
        for code in ("waste-pipe-32", "waste-bend-32", "waste-coupling-32", "waste-clip-32-lined")
    }
    by_hand = 820 * least["waste-pipe-32"], 2 * least["waste-bend-32"], least["waste-coupling-32"], 2 * least["waste-clip-32-lined"]
    assert way.fittings == 5
    assert way.price == pytest.approx(sum(by_hand), abs=Decimal("0.02"))
