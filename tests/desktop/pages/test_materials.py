"""Materials: lines added, set, struck out and put back by hand, as a fitter sees and presses them."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from tests.desktop.fitter import Fitter
from tests.desktop.spoken_names import nameless
from tundish.desktop.boxes import Box
from tundish.desktop.cells import Row
from tundish.desktop.pages.materials import MaterialsPage


def opened(fitter: Fitter) -> MaterialsPage:
    fitter.open("101")
    fitter.settled()
    page = fitter.page("Alt+4")
    assert isinstance(page, MaterialsPage)
    return page


def write(page: QWidget, name: str, words: str) -> None:
    box = next(each for each in page.findChildren(Box) if each.accessibleName() == name)
    box.setFocus()
    QTest.keyClicks(box, words)


def amount(fitter: Fitter, code: str) -> float | None:
    return next((each.amount.value for each in fitter.settled().lines if each.item.code == code), None)


def test_more_of_a_line_is_added_with_the_reason_and_undone_in_one_step(fitter: Fitter) -> None:
    page = opened(fitter)
    before = amount(fitter, "sound-pad")
    assert before is not None
    page.table.choose("line:sound-pad")
    write(page, "Amount by hand", "2+1")
    write(page, "Why by hand", "two get lost")
    fitter.press("Add", page)
    assert amount(fitter, "sound-pad") == before + 3
    assert "two get lost" in next(each.because for each in fitter.settled().lines if each.item.code == "sound-pad")
    fitter.undo()
    assert amount(fitter, "sound-pad") == before


def test_a_line_struck_out_stands_at_the_end_of_the_list_and_can_be_put_back(fitter: Fitter) -> None:
    page = opened(fitter)
    before = amount(fitter, "sound-pad")
    page.table.choose("line:sound-pad")
    write(page, "Why by hand", "the client has them")
    fitter.press("Strike out", page)
    assert amount(fitter, "sound-pad") is None
    row = page.table.table_model.entry(page.table.table_model.place("hand:0"))
    assert isinstance(row, Row)
    shown = [cell.text for cell in row.cells]
    assert shown[1:3] == ["the client has them", "struck out"]
    assert shown[-1] == f"{before:g} worked out"
    page.table.choose("line:soil-coupling-110")
    page.table.choose("hand:0")
    assert page._by_hand._item.currentText() == row.cells[0].text
    fitter.press("Put back", page)
    assert amount(fitter, "sound-pad") == before
    assert fitter.workspace.job.by_hand == ()


def test_a_changed_line_can_be_put_back_where_it_stands(fitter: Fitter) -> None:
    page = opened(fitter)
    before = amount(fitter, "sound-pad")
    page.table.choose("line:sound-pad")
    assert not page._by_hand._back.isEnabled()
    write(page, "Amount by hand", "40")
    write(page, "Why by hand", "for the next job too")
    fitter.press("Set", page)
    assert amount(fitter, "sound-pad") == 40
    page.table.choose("line:soil-coupling-110")
    assert not page._by_hand._back.isEnabled()
    page.table.choose("line:sound-pad")
    fitter.press("Put back", page)
    assert amount(fitter, "sound-pad") == before


def test_an_amount_that_is_none_is_asked_for_and_changes_nothing(fitter: Fitter) -> None:
    page = opened(fitter)
    job = fitter.workspace.job
    write(page, "Amount by hand", "some")
    fitter.press("Set", page)
    assert fitter.workspace.job is job
    assert page._by_hand._trouble.isVisible()


def test_nothing_is_changed_without_a_reason(fitter: Fitter) -> None:
    page = opened(fitter)
    job = fitter.workspace.job
    page.table.choose("line:sound-pad")
    page.table.setFocus()
    QTest.keyClick(page.table, Qt.Key.Key_Delete)
    fitter.press("Strike out", page)
    write(page, "Amount by hand", "3")
    fitter.press("Add", page)
    assert fitter.workspace.job is job
    assert "say why" in page._by_hand._trouble.text()
    write(page, "Why by hand", "spare")
    fitter.press("Add", page)
    assert [each.why for each in fitter.workspace.job.by_hand] == ["spare"]


def test_it_is_done_by_the_keyboard_alone(fitter: Fitter) -> None:
    page = opened(fitter)
    before = amount(fitter, "sound-pad")
    assert before is not None
    page.table.choose("line:sound-pad")
    page.table.setFocus()
    QTest.keyClick(page.table, Qt.Key.Key_Insert)
    QTest.keyClicks(fitter.window.focusWidget(), "50")
    QTest.keyClick(fitter.window.focusWidget(), Qt.Key.Key_Tab)
    QTest.keyClicks(fitter.window.focusWidget(), "two floors")
    for _ in range(2):
        QTest.keyClick(fitter.window.focusWidget(), Qt.Key.Key_Tab)
    QTest.keyClick(fitter.window.focusWidget(), Qt.Key.Key_Space)
    assert amount(fitter, "sound-pad") == 50
    assert nameless(page) == []
