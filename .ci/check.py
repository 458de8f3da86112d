#!/usr/bin/env python3
"""The one command: `python .ci/check.py` says whether the tree is fit to merge.

`--fast` runs the engine's tests only; `--bench` runs the benchmarks only (`--bench --instances DIR` the cutting goals over a folder
of cut lists); `--pages` writes docs/rules again. Run it with the Python of `.venv`, which `python3 installer/test.py --set-up-only` makes.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
ENGINE = (
    "errors",
    "resources",
    "measure",
    "figure",
    "field",
    "plain",
    "typed",
    "survey",
    "catalogue",
    "layout",
    "rules",
    "takeoff",
    "cutting",
    "procurement",
    "pricing",
    "estimate",
    "if_it_were",
    "kit_or_loose",
    "documents",
    "session",
)
TYPED = ("src", "tests", "installer", ".ci/check.py", ".ci/pages.py")
ENGINE_FLOOR = 99  # per cent of lines and branches; it may only rise
REST_FLOOR = 85


def main() -> int:
    """0 when every check asked for passes."""
    asked = argparse.ArgumentParser(description="Says whether the tree is fit to merge.")
    asked.add_argument("--fast", action="store_true", help="the engine's tests only")
    asked.add_argument("--bench", action="store_true", help="the benchmarks only")
    asked.add_argument("--pages", action="store_true", help="write the reference pages of the rules again")
    asked.add_argument("--instances", metavar="DIR", help="with --bench: only the cutting goals, over the cut lists of a folder")
    options = asked.parse_args()
    if options.pages:
        return subprocess.call([sys.executable, ROOT / ".ci" / "pages.py"], cwd=ROOT)
    if options.fast:
        return pytest("-q", *engine_tests())
    if options.bench and options.instances:
        return cutting_goals(Path(options.instances).resolve())
    if options.bench:
        return pytest("tests/benchmarks", "--benchmark-enable", "-s", "--benchmark-columns=min,median,max,rounds")
    return count(every_check())


def cutting_goals(folder: Path) -> int:
    """0 when every cutting goal is met over the cut lists of a folder."""
    paths = os.pathsep.join((str(ROOT), str(ROOT / "src")))
    words = [sys.executable, "-m", "tests.benchmarks.cut_goals", str(folder)]
    return subprocess.call(words, cwd=ROOT, env={**os.environ, "PYTHONPATH": paths})


def every_check() -> Iterable[tuple[str, int]]:
    """The name and exit code of each check, as it ends."""
    yield "style", tool("ruff", "check", ".")
    yield "format", tool("ruff", "format", "--check", ".")
    yield "types", tool("mypy", *TYPED)
    yield "tests", pytest("-n", "2", "--dist", "loadfile", "--cov", "--cov-report=")
    yield "coverage of the engine", coverage("--include", ENGINE_FLOOR)
    yield "coverage of the rest", coverage("--omit", REST_FLOOR)


def count(checks: Iterable[tuple[str, int]]) -> int:
    """1 when a check failed; ends with a line that says how many passed and failed."""
    failed = []
    passed = 0
    for name, code in checks:
        passed += code == 0
        if code:
            failed.append(name)
    for name in failed:
        print(f"FAILED: {name}")
    print(f"{passed} passed, {len(failed)} failed", flush=True)
    return 1 if failed else 0


def pytest(*words: str) -> int:
    """The exit code of pytest, which needs no screen."""
    return tool("pytest", *words)


def coverage(which: str, floor: int) -> int:
    """The exit code of a report on the engine's files (`--include`) or on all others (`--omit`)."""
    return tool("coverage", "report", f"{which}={','.join(engine_files())}", f"--fail-under={floor}")


def tool(*words: str) -> int:
    """The exit code of a Python tool of the environment, run in the checkout."""
    print(f"== {' '.join(words[:2])}", flush=True)
    return subprocess.call([sys.executable, "-m", *words], cwd=ROOT, env={"QT_QPA_PLATFORM": "offscreen", **os.environ})


def engine_files() -> Sequence[str]:
    """Patterns for the engine's source files."""
    return [f"src/tundish/{name}{end}" for name in ENGINE for end in (".py", "/*")]


def engine_tests() -> Sequence[str]:
    """The tests of the engine that there are."""
    paths = [path for name in ENGINE for path in (f"tests/{name}", f"tests/test_{name}.py")]
    return [path for path in (*paths, "tests/jobs", "tests/published") if (ROOT / path).exists()]


if __name__ == "__main__":
    sys.exit(main())
