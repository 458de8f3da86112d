"""A fault planted in one of the tables is found, and told with its file, its row and how to mend it."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

from tundish.catalogue.load import load_catalogue

FAULTS = tomllib.loads(Path(__file__).with_name("faults.toml").read_text(encoding="utf-8"))["fault"]


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault["told"])
def test_a_planted_fault_is_found(folder: Path, spoil: Callable[[str, str, str], None], fault: dict[str, str]) -> None:
    before, _, _ = (folder / fault["file"]).read_text(encoding="utf-8").partition(fault["old"])
    row = before.count("\n") + 1
    spoil(fault["file"], fault["old"], fault["new"])
    book, problems = load_catalogue(folder)
    assert book is None
    told = fault["told"].format(row=row, above=row - 1)
    assert any(told in f"{each.path}: {each.text}" for each in problems), problems
