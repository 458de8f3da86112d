"""The wheel holds the program and its shipped files, and finds them when it is all there is."""

from __future__ import annotations

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from tundish.resources import resource


@pytest.fixture(scope="module")
def installed(checkout: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    done = subprocess.run(build, cwd=checkout, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    (wheel,) = folder.glob("tundish-*.whl")
    with zipfile.ZipFile(wheel) as packed:
        packed.extractall(folder / "site")
    return folder / "site"


def files(folder: Path) -> set[str]:
    hidden = {"__pycache__"}
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file() and not hidden & set(path.parts)}


def test_every_shipped_file_is_in_the_wheel(checkout: Path, installed: Path) -> None:
    assert files(installed / "tundish" / "resources") == files(checkout / "resources") != set()


def test_every_module_is_in_the_wheel(checkout: Path, installed: Path) -> None:
    packed = {name for name in files(installed / "tundish") if not name.startswith("resources/")}
    assert packed == files(checkout / "src" / "tundish")


def test_the_installed_program_finds_its_own_files(installed: Path) -> None:
    line = "from tundish.resources import resource; print(resource())"
    done = subprocess.run(
        [sys.executable, "-I", "-c", f"import sys; sys.path.insert(0, {str(installed)!r}); {line}"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert Path(done.stdout.strip()) == installed / "tundish" / "resources"


def test_a_checkout_finds_its_own_files(checkout: Path) -> None:
    assert resource() == checkout / "resources"
    assert resource("fonts", "a.ttf") == checkout / "resources" / "fonts" / "a.ttf"
