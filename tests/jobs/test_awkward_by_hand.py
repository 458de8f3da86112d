"""Five awkward rooms against accounts made by hand: structure, drainage and space, through the whole of the program's own chain."""

from __future__ import annotations

import tomllib
from functools import lru_cache
from pathlib import Path
from typing import Any, Final

import pytest

from tests.rules.test_cases import HERE as RULES
from tests.rules.test_cases import place
from tundish.catalogue.load import supplied_book
from tundish.estimate import Estimate, Job, estimate
from tundish.layout.design import RoomPlan
from tundish.plain import from_plain

ACCOUNTS: Final[list[dict[str, Any]]] = tomllib.loads((Path(__file__).parent / "awkward_by_hand.toml").read_text(encoding="utf-8"))["job"]
NAMES: Final = [each["name"] for each in ACCOUNTS]
WRITTEN_TO: Final = 0.06
FORCES_TO: Final = 0.001


@lru_cache
def worked(number: int) -> Estimate:
    """One of the rooms, a WC alone, from the plain room of the rule cases with its own inputs."""
    plain = tomllib.loads((RULES / "rooms" / "plain.toml").read_text(encoding="utf-8"))
    del plain["design"]["appliances"][1]
    for path, value in ACCOUNTS[number]["set"].items():
        place(plain, path.split("."), value)
    plan, problems, unknown = from_plain(RoomPlan, plain)
    assert plan is not None, problems
    assert not unknown
    return estimate(Job(rooms=(plan,)), supplied_book())


def every(table: str) -> list[Any]:
    """Every line of a table of the accounts: the account's number, the name, and what stands there."""
    lines = [(number, name, value) for number, one in enumerate(ACCOUNTS) for name, value in one.get(table, {}).items()]
    return [pytest.param(*line, id=f"{NAMES[line[0]].partition(':')[0]}-{line[1]}") for line in lines]


@pytest.mark.parametrize(("number", "name", "value"), every("figures"))
def test_every_height_and_place(number: int, name: str, value: float) -> None:
    assert worked(number).rooms[0].figures[name].value == pytest.approx(value, abs=WRITTEN_TO), ACCOUNTS[number]["because"]


@pytest.mark.parametrize(("number", "title", "wanted"), every("findings"))
def test_every_check(number: int, title: str, wanted: dict[str, Any]) -> None:
    (found,) = (each for each in worked(number).findings if each.title == title)
    assert found.state == wanted["state"], ACCOUNTS[number]["because"]
    for name in ("has", "least", "most"):
        if name in wanted:
            figure = getattr(found, name)
            assert figure.value == pytest.approx(wanted[name], abs=FORCES_TO), ACCOUNTS[number]["because"]
    assert wanted.get("says", "") in found.message


@pytest.mark.parametrize(("number", "code", "amount"), every("needs"))
def test_every_amount(number: int, code: str, amount: float) -> None:
    (line,) = (each for each in worked(number).lines if each.item.code == code)
    assert line.amount.value == pytest.approx(amount, abs=WRITTEN_TO), ACCOUNTS[number]["because"]


@pytest.mark.parametrize(("number", "mark", "length"), every("members"))
def test_every_piece_that_is_named(number: int, mark: str, length: float) -> None:
    (member,) = (each for each in worked(number).rooms[0].members if each.mark == mark)
    assert member.length.value == pytest.approx(length, abs=WRITTEN_TO), ACCOUNTS[number]["because"]


@pytest.mark.parametrize("number", range(len(ACCOUNTS)), ids=NAMES)
def test_nothing_was_left_out_and_the_cautions_are_there(number: int) -> None:
    found = worked(number)
    assert not found.problems
    assert set(ACCOUNTS[number].get("cautions", ())) <= {each.title for each in found.cautions}
