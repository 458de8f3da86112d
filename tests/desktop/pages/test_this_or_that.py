"""A choice left open in the real window: by key and by mouse, what is shown of it, one step to take it back, and how it is settled."""

from __future__ import annotations

from typing import Final

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMenu

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import click
from tundish.desktop import open_list
from tundish.desktop.chooser import Chooser
from tundish.desktop.forms import FormRow
from tundish.desktop.pages.survey import SurveyPage
from tundish.desktop.reasons import reason_of
from tundish.desktop.standing import unsettled
from tundish.field import get
from tundish.layout.undecided import others

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)  # a menu opened without a screen
CONTROL: Final = Qt.KeyboardModifier.ControlModifier
WALL: Final = "rooms.0.survey.wall.construction"
TILE: Final = "rooms.0.design.finish.tile"


def opened(fitter: Fitter, group: str) -> SurveyPage:
    fitter.open("102")
    fitter.settled()
    page = fitter.page("Alt+1")
    assert isinstance(page, SurveyPage)
    page.go_to(group)
    return page


def menu_of(fitter: Fitter, row: FormRow) -> QMenu:
    menus = [each for each in row.findChildren(QMenu) if each.accessibleName().endswith(": or")]
    fitter.qtbot.waitUntil(menus[-1].isVisible, timeout=WAIT_MS)
    return menus[-1]


def take(fitter: Fitter, row: FormRow, words: str) -> None:
    menu = menu_of(fitter, row)
    menu.setActiveAction(next(each for each in menu.actions() if each.text() == words))
    QTest.keyClick(menu, Qt.Key.Key_Return)


def leave_open(fitter: Fitter, page: SurveyPage, path: str, words: str) -> FormRow:
    row = page.form.row(path)
    row.box.setFocus()
    QTest.keyClick(row.box, Qt.Key.Key_T, CONTROL)
    take(fitter, row, words)
    return row


@pytest.mark.parametrize("by", ["key", "mouse"])
def test_a_choice_is_left_open_and_both_are_shown(by: str, fitter: Fitter) -> None:
    page = opened(fitter, WALL)
    row = page.form.row(WALL)
    fitter.qtbot.waitUntil(lambda: not row.or_room().isEmpty(), timeout=WAIT_MS)
    if by == "key":
        row.box.setFocus()
        QTest.keyClick(row.box, Qt.Key.Key_T, CONTROL)
    else:
        click(row, row.or_room().center())
    take(fitter, row, "or brick")
    assert isinstance(row.box, Chooser)
    assert row.box.currentText() == "timber stud"
    said = row.box.accessibleDescription()
    assert "or brick: still open" in said
    assert "To be confirmed" in said
    estimate = fitter.settled()
    reach = next(room.figures["wc-1.reach"] for room in estimate.rooms)
    assert reach.low < reach.high


def test_undo_takes_it_back_in_one_step(fitter: Fitter) -> None:
    page = opened(fitter, WALL)
    before = fitter.workspace.job
    row = leave_open(fitter, page, WALL, "or brick")
    fitter.undo()
    assert fitter.workspace.job == before
    assert "or brick" not in row.box.accessibleDescription()


@pytest.mark.parametrize("how", ["box", "tick", "settle"])
def test_it_is_settled_in_the_box_or_in_the_menu(how: str, fitter: Fitter) -> None:
    page = opened(fitter, WALL)
    row = leave_open(fitter, page, WALL, "or brick")
    if how == "box":
        fitter.type_into(row, "brick")
    else:
        QTest.keyClick(row.box, Qt.Key.Key_T, CONTROL)
        take(fitter, row, "or brick" if how == "tick" else "Settle it at what the box has")
    plan = fitter.workspace.job.rooms[0]
    assert others(plan, "survey.wall.construction") == ()
    assert plan.survey.wall.construction == ("brick" if how == "box" else "timber stud")
    assert "still open" not in row.box.accessibleDescription()


def test_no_more_than_four_are_offered_at_once(fitter: Fitter) -> None:
    page = opened(fitter, WALL)
    for words in ("or brick", "or block", "or concrete"):
        row = leave_open(fitter, page, WALL, words)
    QTest.keyClick(row.box, Qt.Key.Key_T, CONTROL)
    free = [each.text() for each in menu_of(fitter, row).actions() if each.isEnabled() and each.isCheckable()]
    assert free == ["or brick", "or block", "or concrete"]


def test_items_are_offered_by_name(fitter: Fitter) -> None:
    page = opened(fitter, TILE)
    book = fitter.workspace.book
    other = next(item for item in book.of_kind("tile") if item.code != fitter.workspace.job.rooms[0].design.finish.tile)
    row = leave_open(fitter, page, TILE, f"or {other.name}")
    assert f"or {other.name}: still open" in row.box.accessibleDescription()
    assert others(fitter.workspace.job.rooms[0], "design.finish.tile") == (other.code,)


def test_it_is_counted_and_listed_with_what_it_decides(fitter: Fitter) -> None:
    page = opened(fitter, WALL)
    leave_open(fitter, page, WALL, "or brick")
    estimate = fitter.settled()
    assert WALL in set(unsettled(fitter.workspace.job))
    row = next(each for each in open_list.rows(estimate) if each.id == f"input:{WALL}")
    assert row.cells[0].text == "Construction"
    assert row.cells[0].below == "timber stud or brick"
    assert "figure" in row.cells[2].text


@pytest.mark.parametrize("asked", [f"input:{WALL}", "figure:wc-1.reach"])
def test_where_from_names_it_and_what_it_decides(asked: str, fitter: Fitter) -> None:
    page = opened(fitter, WALL)
    leave_open(fitter, page, WALL, "or brick")
    fitter.settled()
    view = reason_of(asked, fitter.workspace)
    assert view is not None
    assert "timber stud or brick" in {line.note for line in view.lines}
    if asked.startswith("figure"):
        place = next(n for n, line in enumerate(view.lines) if line.note == "timber stud or brick")
        view = reason_of(f"{asked}/{place}", fitter.workspace)
        assert view is not None
    section = next(each for each in view.sections if each.title == "What it decides")
    assert section.lines[0].label == "Settle by frames"
    assert any(line.label.startswith("With brick: ") for line in section.lines)
    assert [action.text for action in view.actions] == ["Change it"]


@pytest.mark.parametrize("by", ["key", "mouse"])
def test_yes_or_no_is_left_open_beside_its_tick(by: str, fitter: Fitter) -> None:
    path = "rooms.0.design.finish.tanking"
    page = opened(fitter, path)
    row = page.form.row(path)
    fitter.qtbot.waitUntil(lambda: not row.or_room().isEmpty(), timeout=WAIT_MS)
    row.box.setFocus()
    if by == "key":
        QTest.keyClick(row.box, Qt.Key.Key_T, CONTROL)
    else:
        click(row, row.or_room().center())
    held = get(fitter.workspace.job, path)
    other = "no" if held else "yes"
    take(fitter, row, f"or {other}")
    assert others(fitter.workspace.job.rooms[0], "design.finish.tanking") == (other,)
    assert get(fitter.workspace.job, path) is held
    assert f"or {other}: still open" in row.box.accessibleDescription()
    click(row.box)
    assert not others(fitter.workspace.job.rooms[0], "design.finish.tanking")
    assert get(fitter.workspace.job, path) is not held
