"""Checks say what could not be used as typed; Jobs says everything that is wrong with a file."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel

from tests.desktop.fitter import WAIT_MS, Fitter
from tundish.desktop import look, theme
from tundish.desktop.cells import Row
from tundish.desktop.look import Look
from tundish.desktop.pages.checks import COLUMNS, ChecksPage
from tundish.desktop.pages.jobs import JobsPage


def words(page: ChecksPage) -> str:
    model = page.table.table_model
    rows = [model.entry(place) for place in range(model.rowCount())]
    return "\n".join(cell.said for row in rows if isinstance(row, Row) for cell in row.cells)


def opened(fitter: Fitter) -> ChecksPage:
    fitter.open("101")
    fitter.settled()
    page = fitter.page("Alt+3")
    assert isinstance(page, ChecksPage)
    return page


def test_an_input_that_cannot_be_used_is_said_with_how_to_mend_it(fitter: Fitter) -> None:
    page = opened(fitter)
    assert "more than the whole" not in words(page)
    fitter.workspace.set("terms.deposit", 80)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "more than the whole" in words(page), timeout=WAIT_MS)
    assert "When the wall is boarded" in words(page), "the input is named as its box is"
    assert fitter.window.run.entry("checks").accessibleName().endswith("1 to look at")
    page.table.choose("input:terms.boarded")
    page.figure_asked.emit(page.table.chosen())
    said = [each.text() for each in fitter.window.where_from.findChildren(QLabel) if each.isVisibleTo(fitter.window)]
    assert any("more than the whole: 20 % is asked for" in words for words in said)


def test_only_what_needs_a_look_keeps_what_cannot_be_used(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.workspace.set("terms.deposit", 80)
    fitter.settled()
    fitter.press("Only what needs a look", page)
    fitter.qtbot.waitUntil(lambda: "more than the whole" in words(page), timeout=WAIT_MS)
    assert "Fall of WC branch" not in words(page)


def test_a_bad_file_is_answered_with_all_that_is_wrong(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    bad = tmp_path / "bad.tundish"
    bad.write_text('{"format": "tundish job", "version": 1, "number": 7, "rooms": [{"survey": {"room": {"width": -1}}}]}')
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_args, **_named: (str(bad), ""))
    page = fitter.page("Alt+0")
    assert isinstance(page, JobsPage)
    before = len(fitter.workspace.store.jobs())
    fitter.press("Open from a file", page)
    assert "number" in page._trouble.text()
    assert "rooms.0.survey.room.width" in page._trouble.text()
    assert len(fitter.workspace.store.jobs()) == before


def test_a_file_that_has_gone_is_said(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_args, **_named: (str(tmp_path / "gone.tundish"), ""))
    page = fitter.page("Alt+0")
    assert isinstance(page, JobsPage)
    fitter.press("Open from a file", page)
    assert "cannot be read" in page._trouble.text()


def test_has_needs_and_short_agree_to_the_eye(fitter: Fitter) -> None:
    fitter.open("102")
    fitter.settled()
    fitter.workspace.set("rooms.0.design.appliances.0.top", 410)
    fitter.settled()
    page = fitter.page("Alt+3")
    assert isinstance(page, ChecksPage)
    shown = words(page).splitlines()
    first = next(place for place, text in enumerate(shown) if text.startswith("Fall of WC branch, WC 1"))
    row = shown[first : first + 5]
    assert row[0].endswith("depends on: Heating mat and levelling compound"), "what it turns on is said with it"
    assert row[1:3] == ["2.2, 0.2 to 8.2", "5.7 to 28.4"]
    assert row[4] == "3.5 short"


def test_a_room_of_several_pre_walls_is_not_named_in_every_row(fitter: Fitter) -> None:
    fitter.open("104")
    fitter.settled()
    page = fitter.page("Alt+3")
    assert isinstance(page, ChecksPage)
    assert "WC wall, WC 1" in words(page)
    assert "Bathroom, WC wall" not in words(page)


def test_at_large_text_the_names_of_checks_are_read_whole_and_nothing_is_scrolled_to(fitter: Fitter) -> None:
    page = opened(fitter)
    table = page.table
    seen = {column.title for place, column in enumerate(COLUMNS) if not table.isColumnHidden(place)}
    assert {"Gauge", "Set by"} <= seen
    theme.apply(QApplication.instance(), Look(percent=150))  # type: ignore[arg-type]  # there is one
    fitter.window.resize(1366, 698)
    fitter.qtbot.waitUntil(lambda: table.horizontalScrollBar().maximum() == 0, timeout=WAIT_MS)
    assert table.columnWidth(1) >= look.now().px(200)
    assert table.isColumnHidden(6)


def test_what_needs_nothing_has_no_tick_to_pass(fitter: Fitter) -> None:
    fitter.open("102")
    fitter.settled()
    page = fitter.page("Alt+3")
    assert isinstance(page, ChecksPage)
    model = page.table.table_model
    rows = [row for row in (model.entry(place) for place in range(model.rowCount())) if isinstance(row, Row)]
    gauged = {row.cells[3].text == "–": row.cells[4].gauge is not None for row in rows if row.cells[2].text != "–"}
    assert gauged == {True: False, False: True}
