"""The house style that no linter knows, over every Python file of the program. No file is exempt."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

LINES_OF_A_FILE = 400
LINES_OF_A_FUNCTION = 50
ARGUMENTS = 6
DRAWERS = {"util", "utils", "utility", "utilities", "helper", "helpers", "common", "misc", "manager", "managers", "service", "services"}
UNFINISHED = re.compile(
    r"\b(TO[D]O|FIX[M]E|X[X]X|HAC[K]|NotImplemented[E]rror)\b|(?i:not (yet )?implemente[d]|coming soo[n]|lorem ipsu[m])"
)
Function = ast.FunctionDef | ast.AsyncFunctionDef


def faults(name: str, text: str) -> list[str]:
    """What is against the house style in one file, each with its place."""
    lines = text.splitlines()
    tree = ast.parse(text)
    found = [f"{name}: {len(lines)} lines"] if len(lines) > LINES_OF_A_FILE else []
    found += [f"{name}: '{word}' says nothing about what is inside" for part in Path(name).parts for word in drawers(Path(part).stem)]
    found += [f"{name}:{number}: left unfinished: {match[0]}" for number, line in enumerate(lines, 1) if (match := UNFINISHED.search(line))]
    if text.strip() and not ast.get_docstring(tree):
        found.append(f"{name}: no docstring")
    for node in ast.walk(tree):
        if isinstance(node, Function):
            found += [f"{name}:{node.lineno}: {node.name} {fault}" for fault in function_faults(node)]
        if isinstance(node, ast.ClassDef):
            found += [f"{name}:{node.lineno}: {node.name}: '{word}' says nothing" for word in drawers(node.name)]
    found += [f"{name}:{node.lineno}: {node.name} has no docstring" for node in public(tree.body) if not ast.get_docstring(node)]
    return found


def function_faults(node: Function) -> Iterator[str]:
    length = (node.end_lineno or node.lineno) - node.lineno + 1
    if length > LINES_OF_A_FUNCTION:
        yield f"has {length} lines"
    spec = node.args
    named = [argument.arg for argument in (*spec.posonlyargs, *spec.args, *spec.kwonlyargs) if argument.arg not in {"self", "cls"}]
    count = len(named) + sum(extra is not None for extra in (spec.vararg, spec.kwarg))
    if count > ARGUMENTS:
        yield f"has {count} arguments"


def public(body: list[ast.stmt]) -> Iterator[Function | ast.ClassDef]:
    for node in body:
        if isinstance(node, Function | ast.ClassDef) and not node.name.startswith("_") and not is_overload(node) and not is_of_qt(node):
            yield node
            if isinstance(node, ast.ClassDef):
                yield from public(node.body)


def is_overload(node: Function | ast.ClassDef) -> bool:
    return any(isinstance(mark, ast.Name) and mark.id == "overload" for mark in node.decorator_list)


def is_of_qt(node: Function | ast.ClassDef) -> bool:
    """Whether it is one of Qt's own virtual methods, which Qt's documentation describes: only they are in camel case."""
    return isinstance(node, Function) and node.name != node.name.lower()


def drawers(name: str) -> list[str]:
    words = re.findall(r"[A-Z]?[a-z0-9]+|[A-Z]+", name)
    return [word for word in words if word.lower() in DRAWERS]


def test_every_file_keeps_the_house_style(checkout: Path) -> None:
    files = sorted(path for folder in ("src", "installer", ".ci") for path in (checkout / folder).rglob("*.py"))
    assert len(files) > 20
    found = [fault for path in files for fault in faults(path.relative_to(checkout).as_posix(), path.read_text(encoding="utf-8"))]
    assert not found, "\n".join(found)


def test_a_tidy_file_has_no_fault() -> None:
    assert not faults("src/fall.py", '"""Falls."""\n\n\ndef fall(a: int, b: int) -> int:\n    """Millimetres down."""\n    return a - b\n')


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("src/fall.py", '"""Falls."""\n' + "A = 1\n" * 400, "401 lines"),
        ("src/fall.py", '"""Falls."""\ndef _f():\n' + "    a = 1\n" * 50, "_f has 51 lines"),
        ("src/fall.py", '"""Falls."""\ndef _f(a, b, c, *, d, e, f, **g): ...\n', "_f has 7 arguments"),
        (
            "src/fall.py",
            '"""Falls."""\nclass A:\n    """A."""\n    def f(self, a, b, c, d, e, f, g):\n        """F."""\n',
            "f has 7 arguments",
        ),
        ("src/fall.py", "A = 1\n", "no docstring"),
        ("src/fall.py", '"""Falls."""\ndef fall(): ...\n', "fall has no docstring"),
        ("src/fall.py", '"""Falls."""\nclass Fall:\n    """A fall."""\n    def down(self): ...\n', "down has no docstring"),
        ("src/fall.py", '"""Falls."""\nclass FallManager:\n    """A fall."""\n', "'Manager' says nothing"),
        ("src/pipe_utils.py", '"""Pipes."""\n', "'utils' says nothing"),
        ("src/common/pipe.py", '"""Pipes."""\n', "'common' says nothing"),
        ("src/fall.py", '"""Falls."""\n# ' + "TO" + "DO: steeper\n", "left unfinished"),
        ("src/fall.py", '"""Falls."""\ndef _f():\n    raise NotImplemented' + "Error\n", "left unfinished"),
    ],
)
def test_a_planted_fault_is_found(name: str, text: str, told: str) -> None:
    assert [fault for fault in faults(name, text) if told in fault]
