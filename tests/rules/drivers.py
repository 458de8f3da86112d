"""What a room can have more or less of, and what every rule says of it then."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from tests.rules.test_cases import given, titled
from tundish.rules.book import RULES
from tundish.rules.rule import Caution, Finding, Need, Rule
from tundish.takeoff.run import run_room

STATES = {"passes": 0, "cannot tell": 0, "look": 1, "fails": 2}
Changes = Mapping[str, Any]
Keys = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Driver:
    """One thing that grows from `low` to `high` in `changes` of a room: paths, or, with a dash or a rule figure's key, the book.

    Of the rules named: `more` never ask for less, `worse` never pass where they failed for less, `better` the other way, of `rises` and
    `falls` the value of a check does that. A check that is not made counts as passed; a caution counts as something asked for.
    """

    name: str
    low: int
    high: int
    changes: Callable[[int], Changes]
    more: Keys = ()
    worse: Keys = ()
    better: Keys = ()
    rises: Keys = ()
    falls: Keys = ()
    room: str = "plain"

    @property
    def rules(self) -> frozenset[str]:
        """The rules that are asked."""
        return frozenset((*self.more, *self.worse, *self.better, *self.rises, *self.falls))


@dataclass(frozen=True, slots=True)
class Said:
    """What one rule says of a room: the state and value of each check, and the amount of each role or item."""

    states: Mapping[str, int]
    has: Mapping[str, float]
    needs: Mapping[str, float]


@cache
def said_at(driver: Driver, value: int) -> dict[str, Said]:
    """What the driver's rules say with it at a value."""
    changes = driver.changes(value)
    book = {path: each for path, each in changes.items() if not path.startswith(("survey.", "design."))}
    room, used = given({"room": driver.room, "set": {path: each for path, each in changes.items() if path not in book}, "book": book})
    take = run_room(room, used, _asked(driver.rules))
    return {
        key: _said(
            [one for one in take.findings if one.rule == key],
            [one for one in take.needs if one.rule == key],
            [one for one in take.cautions if one.rule == key],
        )
        for key in driver.rules
    }


def _asked(keys: frozenset[str]) -> tuple[Rule, ...]:
    """These rules and, where one of them reads what is asked for, those that ask; the pipes' clearances ask for nothing, slowly."""
    alone = all(each.reads == "room" for each in RULES if each.key in keys)
    return tuple(each for each in RULES if each.key in keys or (each.reads == "room" and not alone and each.key != "prewall/crossings"))


def _said(findings: Sequence[Finding], needs: Sequence[Need], cautions: Sequence[Caution]) -> Said:
    sums = {titled(one): 1.0 for one in cautions}
    for need in needs:
        sums[need.role or need.item] = sums.get(need.role or need.item, 0.0) + need.amount.value
    has = {titled(one): one.has.value for one in findings if one.has is not None}
    return Said({titled(one): STATES[one.state] for one in findings}, has, sums)
