"""The import contracts hold, and each is seen to catch a planted fault: one that guards nothing looks just like one that holds."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

CHECK = [sys.executable, "-c", "from importlinter.cli import lint_imports_command as check; check()", "--no-cache", "--no-logo"]
EVERY = ("layers", "engine", "homes", "rules", "book", "pages")
Plant = Callable[[Path], str]


def test_the_contracts_hold(checkout: Path) -> None:
    code, said = check_imports(checkout, *EVERY)
    assert code == 0, said
    assert f"Contracts: {len(EVERY)} kept, 0 broken." in said


def in_module(name: str, line: str, told: str) -> Plant:
    def plant(package: Path) -> str:
        add_line(package / name, line)
        return told

    return plant


def price_in_a_rule(package: Path) -> str:
    rule = modules(package / "rules", "*/*.py")[0]
    add_line(rule, "import tundish.pricing")
    return f"{dotted(package, rule)} -> tundish.pricing"


def rule_in_a_rule(package: Path) -> str:
    one, other, *_ = modules(package / "rules", "*/*.py")
    add_line(one, f"import {dotted(package, other)}")
    return f"{dotted(package, one)} -> {dotted(package, other)}"


def rule_through_its_family(package: Path) -> str:
    one, other, *_ = modules(package / "rules", "*/*.py")
    add_line(one.parent / "__init__.py", f"import {dotted(package, other)}")
    add_line(one, f"import {dotted(package, one.parent)}")
    return f"{dotted(package, one)} -> {dotted(package, one.parent)}"


def book_in_a_rule(package: Path) -> str:
    rule = modules(package / "rules", "*/*.py")[0]
    add_line(rule, "import tundish.rules.book")
    return f"{dotted(package, rule)} -> tundish.rules.book"


def page_in_a_page(package: Path) -> str:
    one, other, *_ = modules(package / "desktop" / "pages", "*.py")
    add_line(one, f"import {dotted(package, other)}")
    return f"{dotted(package, one)} -> {dotted(package, other)}"


def new_drawer(package: Path) -> str:
    (package / "utils").mkdir()
    add_line(package / "utils" / "__init__.py", '"""Things that had no name."""')
    return "utils"


@pytest.mark.parametrize(
    ("plant", "contract"),
    [
        pytest.param(in_module("layout/__init__.py", "import PySide6.QtCore", "tundish.layout -> PySide6"), "engine", id="qt in layout"),
        pytest.param(
            in_module("documents/__init__.py", "import sqlalchemy", "tundish.documents -> sqlalchemy"), "engine", id="database in documents"
        ),
        pytest.param(in_module("estimate.py", "import time", "tundish.estimate -> time"), "engine", id="clock in estimate"),
        pytest.param(in_module("takeoff/__init__.py", "import random", "tundish.takeoff -> random"), "engine", id="chance in takeoff"),
        pytest.param(
            in_module("documents/__init__.py", "import tundish.writers", "tundish.documents -> tundish.writers"),
            "layers",
            id="writers in documents",
        ),
        pytest.param(
            in_module("store/__init__.py", "import tundish.session", "tundish.store -> tundish.session"), "layers", id="session in store"
        ),
        pytest.param(in_module("figure.py", "import tundish.field", "tundish.figure -> tundish.field"), "layers", id="field in figure"),
        pytest.param(
            in_module("cli/__init__.py", "import tundish.desktop", "tundish.cli -> tundish.desktop"), "layers", id="window in command line"
        ),
        pytest.param(in_module("pricing/__init__.py", "import numpy", "tundish.pricing -> numpy"), "homes", id="numpy in pricing"),
        pytest.param(in_module("cli/__init__.py", "import PySide6.QtCore", "tundish.cli -> PySide6"), "homes", id="qt in command line"),
        pytest.param(price_in_a_rule, "layers", id="price in a rule"),
        pytest.param(rule_in_a_rule, "rules", id="rule in a rule"),
        pytest.param(rule_through_its_family, "rules", id="rule through its family"),
        pytest.param(book_in_a_rule, "book", id="book in a rule"),
        pytest.param(page_in_a_page, "pages", id="page in a page"),
        pytest.param(new_drawer, "layers", id="new drawer"),
    ],
)
def test_a_planted_fault_is_caught(checkout: Path, tmp_path: Path, plant: Plant, contract: str) -> None:
    shutil.copytree(checkout / "src", tmp_path / "src", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(checkout / "pyproject.toml", tmp_path)
    told = plant(tmp_path / "src" / "tundish")
    code, said = check_imports(tmp_path, contract)
    assert code == 1, said
    assert "Contracts: 0 kept, 1 broken." in said
    assert told in said


def check_imports(root: Path, *contracts: str) -> tuple[int, str]:
    """The exit code and the words of the import check, run on another tree than the one under test."""
    done = subprocess.run(
        [*CHECK, *(f"--contract={name}" for name in contracts)],
        cwd=root,
        env={**os.environ, "PYTHONPATH": str(root / "src"), "COLUMNS": "200"},
        capture_output=True,
        text=True,
        check=False,
    )
    return done.returncode, done.stdout + done.stderr


def modules(folder: Path, pattern: str) -> list[Path]:
    return sorted(path for path in folder.glob(pattern) if path.name != "__init__.py")


def dotted(package: Path, path: Path) -> str:
    return ".".join(path.relative_to(package.parent).with_suffix("").parts)


def add_line(path: Path, line: str) -> None:
    with path.open("a", encoding="utf-8") as file:
        file.write(f"\n{line}\n")
