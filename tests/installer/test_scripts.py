"""What the two commands start once the machine is set up."""

from __future__ import annotations

import runpy
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import pytest

import setting_up

Started = list[tuple[list[str], str]]
Main = Callable[[list[str]], int]


@pytest.fixture
def started(monkeypatch: pytest.MonkeyPatch) -> Started:
    """What was started, and on which of Qt's platforms; nothing is set up or run."""
    noted: Started = []

    def start(python: Path, words: Sequence[str], environ: Mapping[str, str] | None = None) -> int:
        noted.append((list(words), (environ or {}).get("QT_QPA_PLATFORM", "")))
        return 0

    monkeypatch.setattr(setting_up, "set_up", lambda extra, libraries: Path("python"))
    monkeypatch.setattr(setting_up, "start", start)
    monkeypatch.delenv("QT_QPA_PLATFORM", raising=False)
    return noted


def script(name: str) -> Main:
    main: Main = runpy.run_path(str(Path(setting_up.__file__).with_name(name)))["main"]
    return main


def screen(monkeypatch: pytest.MonkeyPatch, *, there: bool) -> None:
    monkeypatch.setattr(setting_up, "has_screen", lambda system, environ: there)


def test_run_opens_the_window(started: Started, monkeypatch: pytest.MonkeyPatch) -> None:
    screen(monkeypatch, there=True)
    assert script("run.py")([]) == 0
    assert started == [(["tundish"], "")]


def test_run_passes_words_on(started: Started, monkeypatch: pytest.MonkeyPatch) -> None:
    screen(monkeypatch, there=True)
    script("run.py")(["--selfcheck", "a.png"])
    assert started == [(["tundish", "--selfcheck", "a.png"], "")]


def test_run_without_a_screen_passes_words_on_offscreen(started: Started, monkeypatch: pytest.MonkeyPatch) -> None:
    screen(monkeypatch, there=False)
    script("run.py")(["--selfcheck", "a.png"])
    assert started == [(["tundish", "--selfcheck", "a.png"], "offscreen")]


def test_run_without_a_screen_writes_the_papers_and_says_where(
    started: Started, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    screen(monkeypatch, there=False)
    assert script("run.py")([]) == 0
    papers = str(Path.home() / "Tundish demo papers")
    assert started == [(["tundish", "demo", "--to", papers], "")]
    assert f"The papers are in {papers}" in capsys.readouterr().out


def test_test_runs_pytest_offscreen_and_passes_words_on(started: Started) -> None:
    assert script("test.py")(["-k", "tile"]) == 0
    [(words, platform)] = started
    assert words[0] == "pytest"
    assert words[-2:] == ["-k", "tile"]
    assert platform == "offscreen"


@pytest.mark.parametrize("name", ["run.py", "test.py"])
def test_setting_up_only_starts_nothing(started: Started, name: str) -> None:
    assert script(name)(["--set-up-only"]) == 0
    assert started == []
