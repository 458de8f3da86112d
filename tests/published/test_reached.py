"""The table of what is reached where is whole, and names tests that are there."""

from __future__ import annotations

import ast
import tomllib
from pathlib import Path

HERE = Path(__file__).parent
TABLE = tomllib.loads((HERE / "reached.toml").read_text(encoding="utf-8"))
NUMBERS = {"V": 18, "C": 6, "I": 8, "X": 19, "M": 8, "D": 7, "O": 12}
LEFT_OUT = {"C2", "C3", "I6", "X2", "X4"}
"""Numbers of the list that have no figure."""
BILLS = {"EI1", "EI2", "EI3", "EI5", "EI10", "EI11", "EI12"}


def named_in(name: str) -> set[str]:
    tree = ast.parse((HERE / name).resolve().read_text(encoding="utf-8"))
    return {each.name for each in tree.body if isinstance(each, ast.FunctionDef)}


def test_every_number_of_the_list_is_in_it() -> None:
    wanted = {f"{letter}{place}" for letter, last in NUMBERS.items() for place in range(1, last + 1)} - LEFT_OUT
    assert wanted | BILLS == set(TABLE)


def test_each_is_reached_by_tests_that_are_there_or_says_why_not() -> None:
    for number, row in TABLE.items():
        assert row["what"], number
        assert ("why" in row) != ("by" in row), number
        for each in row.get("by", ()):
            name, _, test = each.partition("::")
            assert test in named_in(name), f"{number}: {each}"
