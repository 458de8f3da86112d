"""A paper handed to the mail program: with its file where the desktop can, in words and with its folder where it cannot."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import unquote

import pytest
from PySide6.QtCore import QProcess, QUrl
from PySide6.QtGui import QDesktopServices
from pytestqt.qtbot import QtBot

from tundish.desktop import mail
from tundish.desktop.mail import Letter, Mailing, arguments, link


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[QUrl]:
    """What the desktop is asked to open; it opens all of it."""
    asked: list[QUrl] = []

    def take(url: QUrl) -> bool:
        asked.append(url)
        return True

    monkeypatch.setattr(QDesktopServices, "openUrl", take)
    return asked


def letter(tmp_path: Path, to: str = "p.marlbeck@example.com") -> Letter:
    file = tmp_path / "Quote 101 & more.pdf"
    file.write_bytes(b"%PDF-")
    return Letter(to, "Quote 101", "Attached: the quote\n\nM. Tarrowby", file)


def a_tool(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int) -> Path:
    """A desktop's tool that writes down what it is given, and ends so."""
    given, tool = tmp_path / "given", tmp_path / "tools" / mail.TOOL
    tool.parent.mkdir()
    tool.write_text(f'#!/bin/sh\nfor each in "$@"; do printf "%s\\036" "$each"; done > "{given}"\nexit {code}\n')
    tool.chmod(0o755)
    monkeypatch.setenv("PATH", str(tool.parent))
    return given


def told_by(qtbot: QtBot, mailing: Mailing, times: int) -> list[str]:
    said: list[str] = []
    mailing.told.connect(said.append)
    mailing.start()
    qtbot.waitUntil(lambda: len(said) == times, timeout=20_000)
    return said


def test_the_desktop_is_given_the_file_the_address_and_the_words(
    qtbot: QtBot, tmp_path: Path, opened: list[QUrl], monkeypatch: pytest.MonkeyPatch
) -> None:
    given, one = a_tool(tmp_path, monkeypatch, 0), letter(tmp_path)
    mailing = Mailing(one)
    said = told_by(qtbot, mailing, 1)
    process = mailing.findChild(QProcess)
    assert process
    qtbot.waitUntil(lambda: process.state() is QProcess.ProcessState.NotRunning, timeout=20_000)
    words = given.read_text().split("\x1e")
    assert words[words.index("--attach") + 1] == str(one.file)
    assert words[words.index("--subject") + 1] == "Quote 101"
    assert words[words.index("--body") + 1] == one.words
    assert "mailto:p.marlbeck@example.com" in words
    assert one.file.name in said[0]
    assert str(tmp_path) in said[0]
    assert opened == []


def test_where_the_tool_fails_a_letter_is_begun_and_the_folder_shown(
    qtbot: QtBot, tmp_path: Path, opened: list[QUrl], monkeypatch: pytest.MonkeyPatch
) -> None:
    a_tool(tmp_path, monkeypatch, 3)
    said = told_by(qtbot, Mailing(letter(tmp_path)), 2)
    assert [url.scheme() for url in opened] == ["mailto", "file"]
    assert opened[1].toLocalFile() == str(tmp_path)
    assert "attach Quote 101 & more.pdf" in said[-1]


def test_without_the_tool_it_is_the_same(qtbot: QtBot, tmp_path: Path, opened: list[QUrl], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    (said,) = told_by(qtbot, Mailing(letter(tmp_path)), 1)
    assert "attach" in said
    assert len(opened) == 2


def test_without_any_mail_program_it_is_said_where_the_file_is(qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda _: False)
    assert told_by(qtbot, Mailing(letter(tmp_path)), 1) == [f"No mail program could be opened. Quote 101 & more.pdf is in {tmp_path}"]


@pytest.mark.parametrize("to", ["", "--attach", "a@b.c?bcc=other@example.com", "a@b.c\r\nBcc: other@example.com"])
def test_an_address_adds_nothing_to_the_letter(tmp_path: Path, to: str) -> None:
    one = letter(tmp_path, to)
    last = arguments(one)[-1]
    assert last.startswith("mailto:")
    assert not set("?&\r\n ") & set(last)
    assert link(one).count("?") == 1
    assert unquote(link(one)).count("subject=") == 1


def test_a_link_keeps_every_word(tmp_path: Path) -> None:
    one = Letter("", "Offcuts & 100 % more?", "Line one\nTwo + three = five", tmp_path)
    assert unquote(link(one)) == "mailto:?subject=Offcuts & 100 % more?&body=Line one\r\nTwo + three = five"
