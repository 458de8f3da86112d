"""Five rooms against accounts made by hand, without sight of the program: every height, depth, place and length of them."""

from __future__ import annotations

import math
import tomllib
from functools import lru_cache
from pathlib import Path
from typing import Any, Final

import pytest

from tundish.catalogue.load import supplied_book
from tundish.estimate import Estimate, Job, estimate
from tundish.figure import Figure
from tundish.layout.room import Member, Placed, Room
from tundish.store.codec import read_job
from tundish.store.keep import demo_jobs

HERE: Final = Path(__file__).parent / "by_hand"
ROOMS: Final = ("village_hall", "ensuite", "cupboard", "corner_wc", "round_corner")
WRITTEN_TO: Final = 0.06
"""The accounts are written to two places; a setter-out works to a tenth of a millimetre."""
AREA_TO: Final = 0.00006
"""Areas are written to four places of a square metre."""
ACCOUNTS: Final[dict[str, dict[str, list[dict[str, Any]]]]] = {
    name: tomllib.loads((HERE / f"{name}.toml").read_text(encoding="utf-8")) for name in ROOMS
}


def lines(table: str) -> list[Any]:
    """Every line of that table in the accounts, named by room, pre-wall and figure or mark."""
    return [
        pytest.param(account, line, id=f"{account}-{line.get('wall', 1)}-{line.get('name') or line['mark']}")
        for account in ROOMS
        for line in ACCOUNTS[account][table]
    ]


@pytest.mark.parametrize(("account", "line"), lines("figures"))
def test_every_figure_is_as_worked_out_by_hand(account: str, line: dict[str, Any]) -> None:
    room = at(account, line)
    if isinstance(line["value"], str):
        assert tie_rod(room, line["name"]) == line["value"], line["because"]
        return
    figure = named(room, line["name"])
    shown = {"value": figure.value, "low": figure.low, "high": figure.high}
    assert shown == pytest.approx(by_hand(line, line["value"]), abs=AREA_TO if figure.unit == "m²" else WRITTEN_TO), line["because"]


@pytest.mark.parametrize(("account", "line"), lines("members"))
def test_every_member_is_as_worked_out_by_hand(account: str, line: dict[str, Any]) -> None:
    room = at(account, line)
    member = next(each for each in room.members if each.mark == room.mark + line["mark"])
    assert member.what == line["what"]
    assert middle(member) == pytest.approx(line["x"], abs=WRITTEN_TO), line["because"]
    shown = {"value": member.length.value, "low": member.length.low, "high": member.length.high}
    assert shown == pytest.approx(by_hand(line, line["length"]), abs=WRITTEN_TO), line["because"]


@pytest.mark.parametrize("account", ROOMS)
def test_no_member_is_missing_and_none_is_too_many(account: str) -> None:
    for place, room in enumerate(worked(account).rooms, 1):
        expected = {room.mark + line["mark"] for line in ACCOUNTS[account]["members"] if line["wall"] == place}
        assert {member.mark for member in room.members} == expected


@lru_cache
def worked(account: str) -> Estimate:
    """The job of that account, worked out with what is supplied."""
    return estimate(job_of(account), supplied_book())


def job_of(account: str) -> Job:
    """The hall is one of the demonstration jobs; the others stand beside their accounts."""
    if account == "village_hall":
        return next(job for job in demo_jobs() if job.number == "103")
    job = read_job((HERE / f"{account}.tundish").read_bytes()).job
    assert job is not None
    return job


def at(account: str, line: dict[str, Any]) -> Room:
    """The pre-wall that a line is about; what is said of the whole room is said at the first."""
    place: int = line.get("wall", 1) - 1
    room = worked(account).rooms[place]
    assert room.room_name == line["room"]
    return room


def by_hand(line: dict[str, Any], value: float) -> dict[str, float]:
    """What the account says, low and high too: the value itself where nothing is open."""
    return {"value": value, "low": line.get("low", value), "high": line.get("high", value)}


def named(room: Room, name: str) -> Figure:
    """The figure of that name; four that a person writes down are not named in the program, but follow from what it has."""
    key, _, short = name.partition(".")
    if name == "end":
        return room.start + room.run
    if short == "packers":
        return appliance(room, key).figures.get("packers", room.start * 0)
    if short == "void":
        return room.depth - appliance(room, key).frame.size("depth")
    return room.figures[name] if name in room.figures else room.figures[room.mark + name]


def tie_rod(room: Room, name: str) -> str:
    """Code of the tie rod that is taken for an appliance."""
    rod = appliance(room, name.partition(".")[0]).tie_rod
    assert rod is not None
    return rod.code


def appliance(room: Room, key: str) -> Placed:
    """The appliance of that key."""
    return next(each for each in room.placed if each.key == key)


def middle(member: Member) -> float:
    """Where along the wall the middle of a member is; of a strut on a wall of a corner, as it is seen from the front."""
    seen = member.length.value * math.cos(math.radians(member.turn))
    return member.x + (seen if member.along == "x" else member.section[0]) / 2
