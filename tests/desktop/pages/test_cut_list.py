"""A cut list of its own: typed or opened, planned beside the window, drawn, and told in words where it cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.spoken_names import nameless
from tundish.cutting.own_list import planned
from tundish.desktop.pages.cut_list import CutListPage, Until, one_by_one
from tundish.store.cut_file import question_of, read_cut_file, rows_of

BARS = (
    {"mark": "A", "length": "900", "count": "3"},
    {"what": "piece", "mark": "B", "length": "1400"},
    {"what": "bar", "mark": "strut", "length": "3000", "price": "9.50"},
    {"what": "offcut", "mark": "R1", "length": "1450"},
)
SHEETS = (
    {"mark": "P", "length": "600", "width": "400", "count": "4", "turn": "no"},
    {"what": "sheet", "mark": "ply", "length": "1220", "width": "820", "price": "12"},
)


def opened(fitter: Fitter) -> CutListPage:
    fitter.window.show_page("stock")
    fitter.press("Cut list")
    page = fitter.window.page("cut_list")
    assert isinstance(page, CutListPage)
    return page


def done(fitter: Fitter, page: CutListPage, words: str) -> None:
    fitter.qtbot.waitUntil(lambda: words in page._lines.text() and not page._halt.isEnabled(), timeout=WAIT_MS)


def test_what_is_typed_is_planned_and_drawn(fitter: Fitter) -> None:
    page = opened(fitter)
    page.rows.show_rows(BARS)
    fitter.press("Plan it", page)
    done(fitter, page, "New stock £9.50, proven best.")
    assert page._part.isVisible()
    assert {mark for mark, _ in page._part.view._drawing.pieces} == {"A-1", "A-2", "A-3", "B"}
    page.rows.show_rows(SHEETS)
    fitter.press("Plan it", page)
    done(fitter, page, "New stock £12.00, proven best.")
    assert nameless(page) == []


def test_the_list_is_reached_from_the_cutting_of_a_job_too(fitter: Fitter) -> None:
    fitter.open("101")
    fitter.settled()
    fitter.page("Alt+5")
    fitter.press("List of its own")
    assert fitter.window.frame.pages.currentWidget() is fitter.window.page("cut_list")


def test_what_cannot_be_planned_is_told_by_its_row(fitter: Fitter) -> None:
    page = opened(fitter)
    page.rows.show_rows(({"mark": "A", "length": "-4"}, *BARS[2:]))
    fitter.press("Plan it", page)
    assert page._said.text().startswith("pieces row 1, length: should be more than nought")
    page.rows.show_rows(({"mark": "A", "length": "0.9 m"}, *BARS[2:]))
    fitter.press("Plan it", page)
    assert "use one unit in a list" in page._said.text()
    page._saws["kerf"].setText("thin")
    fitter.press("Plan it", page)
    assert page._said.text().startswith("Blade, mm:")


def test_a_file_is_opened_shown_and_a_long_one_told_line_by_line(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(fitter)
    (tmp_path / "list.csv").write_text("what,mark,length,count,price\npiece,A,900,3,\nbar,strut,3000,,9.50\n", encoding="utf-8")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(tmp_path / "list.csv"), ""))
    fitter.press("Open file", page)
    done(fitter, page, "New stock £9.50, proven best.")
    assert [row["mark"] for row in page.rows.rows()] == ["A", "strut"]
    lines = "".join(f"piece,M{place},{300 + place},2,\n" for place in range(300))
    (tmp_path / "list.csv").write_text(f"what,mark,length,count,price\n{lines}bar,strut,3000,,9.50\n", encoding="utf-8")
    fitter.press("Open file", page)
    assert "planned as it is" in page._said.text()
    fitter.qtbot.waitUntil(lambda: "1. strut" in page._lines.text(), timeout=WAIT_MS)
    assert not page._part.isVisible()
    fitter.press("Stop", page)
    fitter.qtbot.waitUntil(lambda: not page._halt.isEnabled(), timeout=WAIT_MS)
    fitter.press("Plan it", page)
    fitter.press("Stop", page)
    fitter.qtbot.waitUntil(lambda: not page._halt.isEnabled(), timeout=WAIT_MS)
    (tmp_path / "list.csv").write_text("nothing\n", encoding="utf-8")
    fitter.press("Open file", page)
    assert page._said.text().startswith("row 1: the columns should be")


@pytest.mark.parametrize("rows", [BARS, SHEETS])
def test_rows_typed_from_a_question_ask_it_again(rows: tuple[dict[str, str], ...]) -> None:
    asked = question_of(rows, 3.0, 5.0)
    again = question_of(rows_of(asked), 3.0, 5.0)
    assert again == asked
    plan = planned(asked)
    free = one_by_one(plan)
    assert len(free.cuts) == sum(piece.count for piece in plan.pieces)
    assert {piece.count for piece in free.plan.pieces} == {1}


def test_a_file_reads_as_its_rows(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_text("what,mark,length,count,price\npiece,A,900,3,\nbar,strut,3000,,9.50\n", encoding="utf-8")
    asked = read_cut_file(tmp_path / "list.csv", 3.0, 0.0)
    assert [row["what"] for row in rows_of(asked)] == ["piece", "bar"]


def test_it_is_left_off_when_told_or_when_the_time_is_gone() -> None:
    stop = Until(60)
    assert not stop()
    assert 0 < stop.left() <= 60
    stop.tell()
    assert stop()
    assert Until(0)()


def test_tab_goes_from_the_end_of_a_row_to_the_next_one_and_back(fitter: Fitter) -> None:
    """Every row was made after the rest of the page, and Tab left the table after the first."""
    page = opened(fitter)
    first, *_, last = page.rows._rows[0].values()
    first.setFocus()
    QTest.keyClicks(first, "piece")
    below = page.rows._rows[1]["what"]
    fitter.qtbot.waitUntil(below.isVisible, timeout=WAIT_MS)
    last.setFocus()
    QTest.keyClick(last, Qt.Key.Key_Tab)
    fitter.qtbot.waitUntil(below.hasFocus, timeout=WAIT_MS)
    QTest.keyClick(below, Qt.Key.Key_Backtab)
    fitter.qtbot.waitUntil(last.hasFocus, timeout=WAIT_MS)


def test_cells_of_a_spreadsheet_are_pasted_to_the_right_and_down(fitter: Fitter) -> None:
    page = opened(fitter)
    first = page.rows._rows[0]["what"]
    QApplication.clipboard().setText("What\tMark\tLength\tWidth\tCount\npiece\tA\t900\t\t3\r\nbar\tstrut\t3000\n")
    QTest.keySequence(first, QKeySequence(QKeySequence.StandardKey.Paste))
    rows = [{key: words for key, words in row.items() if words} for row in page.rows.rows()]
    assert rows == [{"what": "piece", "mark": "A", "length": "900", "count": "3"}, {"what": "bar", "mark": "strut", "length": "3000"}]
    assert len(page.rows._rows) == 3, "and an empty one below"
    QApplication.clipboard().setText("one word")
    QTest.keySequence(page.rows._rows[2]["mark"], QKeySequence(QKeySequence.StandardKey.Paste))
    assert page.rows.rows()[2]["mark"] == "one word"
    QApplication.clipboard().setText("A\t1\n" * 201)
    QTest.keySequence(first, QKeySequence(QKeySequence.StandardKey.Paste))
    assert page._said.text().startswith("Nothing is pasted: 201 rows are too many")
    assert page.rows.rows()[0]["mark"] == "A"
