"""The Run: pages as joints with their state in words, and the Before closing card."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from tests.desktop.hands import click, key
from tundish.desktop import look, theme
from tundish.desktop.look import Look
from tundish.desktop.run import CLOSING, PAGES, Entry, Run


@pytest.fixture
def run(qtbot: QtBot) -> Run:
    made = Run()
    made.resize(172, 620)
    qtbot.addWidget(made)
    made.set_job_open(open_job=True)
    made.set_closing("7 of 10 still open", ("settled",) * 3 + ("asked",) * 2 + ("open",) * 4 + ("not needed",), "Boarding Thu 3 Dec")
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    return made


def entries(run: Run) -> list[Entry]:
    return run.findChildren(Entry)


def test_a_lock_says_closed_where_the_word_would_cut_the_page_s_name(run: Run) -> None:
    seen = []
    for words in ("closed", "", "1"):
        run.set_state("setting_out", words, "ink2", "lock")
        run.set_state("survey", words, "ink2", "lock")
        seen.append([run.entry(key).grab().toImage() for key in ("setting_out", "survey")])
    (long, short), (bare, none), (one, _) = seen
    assert long == bare
    assert one != bare, "what has room is written"
    assert short != none
    run.set_state("setting_out", "closed", "ink2", "lock")
    assert run.entry("setting_out").accessibleName() == "Setting out, page 2 of 8, closed"


def test_a_page_is_read_out_with_its_place_and_state(run: Run) -> None:
    run.set_state("checks", "1", "tbc", "warn")
    run.set_state("survey", "2 TBC", "tbc")
    assert run.entry("checks").accessibleName() == "Checks, page 3 of 8, 1 to look at"
    assert run.entry("survey").accessibleName() == "Survey, page 1 of 8, 2 TBC"
    assert run.entry("paper").accessibleName() == "Paper, page 8 of 8"


def test_the_card_is_read_out_whole(run: Run) -> None:
    assert run.entry(CLOSING).accessibleName() == "Before closing, 7 of 10 still open, Boarding Thu 3 Dec"


def test_a_press_asks_for_the_page_and_does_not_mark_it(run: Run, qtbot: QtBot) -> None:
    asked = QSignalSpy(run.page_asked)
    run.set_current("survey")
    click(run.entry("cutting"))
    click(run.entry(CLOSING))
    click(run.entry("settings"))
    assert [asked.at(place)[0] for place in range(asked.count())] == ["cutting", CLOSING, "settings"]
    assert [entry.key for entry in entries(run) if entry.isChecked()] == ["survey"]


def test_up_and_down_go_along_the_pipe_and_round(run: Run) -> None:
    run.entry("paper").setFocus()
    keys = []
    for arrow in (Qt.Key.Key_Down, Qt.Key.Key_Up, Qt.Key.Key_Up):
        key(arrow)
        keys.append(QApplication.focusWidget())
    assert keys == [run.entry(CLOSING), run.entry("paper"), run.entry("pricing")]
    run.entry("survey").setFocus()
    QTest.keyClick(run.entry("survey"), Qt.Key.Key_Up)
    assert QApplication.focusWidget() is run.entry("settings")


def test_enter_opens_the_page(run: Run, qtbot: QtBot) -> None:
    run.entry("pricing").setFocus()
    with qtbot.waitSignal(run.page_asked) as asked:
        QTest.keyClick(run.entry("pricing"), Qt.Key.Key_Return)
    assert asked.args == ["pricing"]


def test_without_a_job_only_the_pages_outside_a_job_can_be_opened(run: Run) -> None:
    run.set_job_open(open_job=False)
    assert {entry.key for entry in entries(run) if entry.isEnabled()} == {"stock", "rates", "settings"}


@pytest.mark.parametrize("high", [480, 540, 620, 900])
@pytest.mark.parametrize("wear", [Look(), Look(percent=150), Look(roomy=True)], ids=["plain", "150 %", "roomy"])
def test_nothing_overlaps_at_any_height(run: Run, qapp: QApplication, high: int, wear: Look) -> None:
    theme.apply(qapp, wear)
    run.resize(wear.px(172), max(high, wear.px(high) - 200))
    boxes = [entry.geometry() for entry in entries(run)]
    assert not any(one.intersects(other) for one in boxes for other in boxes if one is not other)
    assert all(box.bottom() < run.height() for box in boxes)


def test_the_page_shown_has_a_bar_at_its_left(run: Run) -> None:
    run.set_current("checks")
    image = run.grab().toImage()
    chalk = look.now().hex("chalk")
    marked = [joint.key for joint in PAGES if image.pixelColor(1, run.entry(joint.key).geometry().top() + 2).name().upper() == chalk]
    assert marked == ["checks"]
