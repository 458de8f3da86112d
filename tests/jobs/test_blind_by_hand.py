"""Rooms worked by hand before the program or its rule book were opened, set beside what the program makes of them, line by line.

Each account keeps what the hand wrote down. Where it was not right, what is right stands beside it, and why the two differ. What the hand
could not know then, such as the trader's norms, was worked a second time with the figures of the rule book, and stands apart.
"""

from __future__ import annotations

import ast
import math
import operator
import tomllib
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from typing import Any, Final

import pytest

from tundish.catalogue.load import supplied_book
from tundish.estimate import Estimate, Job, estimate
from tundish.layout.room import Room
from tundish.store.codec import read_job
from tundish.store.keep import demo_jobs

HERE: Final = Path(__file__).parent / "blind"
ACCOUNTS: Final[dict[str, dict[str, list[dict[str, Any]]]]] = {
    path.stem: tomllib.loads(path.read_text(encoding="utf-8")) for path in sorted(HERE.glob("*.toml"))
}
WRITTEN_TO: Final = 0.006
"""The accounts are written to two places, most to none."""
WORKED_TO: Final = 0.0006
"""The sums of the hand were written down to three places."""


def rows(*tables: str, having: str = "") -> list[Any]:
    """Every row of these tables of the accounts, or those that have a key, named by its room and what it is."""
    return [
        pytest.param(number, row, id=f"{number}-{row.get('what') or row['title']}")
        for number, account in ACCOUNTS.items()
        for table in tables
        for row in account.get(table, ())
        if not having or having in row
    ]


@pytest.mark.parametrize(("number", "row"), rows("lines", "second"))
def test_the_sum_comes_to_what_the_hand_wrote_down(number: str, row: dict[str, Any]) -> None:
    assert worked_out(ast.parse(row["sum"], mode="eval").body) == pytest.approx(row["hand"], abs=WORKED_TO), number


@pytest.mark.parametrize(("number", "row"), rows("lines", "second", having="program"))
def test_the_program_finds_what_is_right(number: str, row: dict[str, Any]) -> None:
    assert said(worked(number), row["program"]) == pytest.approx(row.get("is", row["hand"]), abs=WRITTEN_TO), row.get("said")


@pytest.mark.parametrize(("number", "row"), rows("lines", having="is"))
def test_a_hand_that_was_not_right_says_why(number: str, row: dict[str, Any]) -> None:
    assert row["said"], number
    assert row["is"] != pytest.approx(row["hand"], abs=WRITTEN_TO)


@pytest.mark.parametrize(("number", "row"), rows("checks"))
def test_every_check_comes_out_as_by_hand(number: str, row: dict[str, Any]) -> None:
    found = worked(number).findings
    states = {each.state for each in found if each.title == row["title"] and row.get("at", "") in each.place}
    assert states == {row["state"]}, row["because"]


@lru_cache
def worked(number: str) -> Estimate:
    """The room of that account: one of the demonstration jobs, or the job that stands beside it."""
    return estimate(job_of(number), supplied_book())


def job_of(number: str) -> Job:
    """The job of an account."""
    path = HERE / f"{number}.tundish"
    if not path.exists():
        return next(job for job in demo_jobs() if job.number == number)
    job = read_job(path.read_bytes()).job
    assert job is not None
    return job


def said(found: Estimate, words: str) -> float:
    """What the program says: terms put together with plus and minus, or a thousandth of one where it ends in / 1000."""
    if words.endswith(" / 1000"):
        return said(found, words.removesuffix(" / 1000")) / 1000
    if " - " in words:
        first, _, rest = words.rpartition(" - ")
        return said(found, first) - said(found, rest)
    return sum(term(found, each) for each in words.split(" + "))


def term(found: Estimate, words: str) -> float:
    """One thing the program says: a figure by its name, or what the first word asks for."""
    kind, _, name = words.partition(" ")
    return ASKED[kind](found, name) if name else figure(found, words)


def figure(found: Estimate, name: str, which: str = "value") -> float:
    """A figure of whichever pre-wall has it; a letter and a dot before it name the pre-wall."""
    room = next(room for room in found.rooms if name in room.figures or name.removeprefix(room.mark) in room.figures)
    wanted = room.figures.get(name) or room.figures[name.removeprefix(room.mark)]
    return float(getattr(wanted, which))


def piece(found: Estimate, mark: str) -> float:
    """The length of a piece that is cut."""
    return next(each.length.value for room in found.rooms for each in room.members if each.mark == mark)


def judged(found: Estimate, name: str, which: str) -> float:
    """What a check has or asks for; after a comma stands where."""
    title, _, at = name.partition(", ")
    wanted = next(each for each in found.findings if each.title == title and at in each.place)
    return float(getattr(wanted, which).value)


def bought(found: Estimate, code: str, which: str) -> float:
    """How much of an item comes out of kits, or how many packs are bought."""
    purchase = next(each for each in found.buying.purchases if each.line.item.code == code)
    return sum(pick.packs for pick in purchase.picks) if which == "picks" else float(purchase.from_kits.value)


def rod(found: Estimate, key: str) -> float:
    """How far the tie rod of an appliance reaches at most."""
    rooms: tuple[Room, ...] = found.rooms
    taken = next(each.tie_rod for room in rooms for each in room.placed if each.key == key)
    assert taken is not None
    return taken.sizes["reach_most"][0]


ASKED: Final[dict[str, Callable[[Estimate, str], float]]] = {
    "low": lambda found, name: figure(found, name, "low"),
    "high": lambda found, name: figure(found, name, "high"),
    "piece": piece,
    "has": lambda found, name: judged(found, name, "has"),
    "least": lambda found, name: judged(found, name, "least"),
    "most": lambda found, name: judged(found, name, "most"),
    "needs": lambda found, code: next(line.amount.value for line in found.lines if line.item.code == code),
    "kits": lambda found, code: bought(found, code, "from_kits"),
    "buys": lambda found, code: bought(found, code, "picks"),
    "rod": rod,
    "hours": lambda found, stages: sum(each.hours.value for each in found.price.stages if stages in {"in all", each.stage}),
}

DOES: Final[dict[type[ast.AST], Callable[..., float]]] = {
    ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv, ast.Pow: operator.pow,
}  # fmt: skip
CALLS: Final[dict[str, Callable[[float], float]]] = {"ceil": math.ceil, "sqrt": math.sqrt}


def worked_out(sum_: ast.expr) -> float:
    """A sum as it is written: numbers, the four kinds and powers, whole ones above, roots."""
    match sum_:
        case ast.Constant(value=value) if isinstance(value, int | float):
            return value
        case ast.BinOp(left=left, op=op, right=right):
            return DOES[type(op)](worked_out(left), worked_out(right))
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return -worked_out(operand)
        case ast.Call(func=ast.Name(id=name), args=[inner]):
            return CALLS[name](worked_out(inner))
    raise AssertionError(ast.dump(sum_))
