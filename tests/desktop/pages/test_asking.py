"""Where from in the window: typing a figure over, what would be different, what an open input decides, and settling it."""

from __future__ import annotations

from dataclasses import replace
from threading import Event

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QWidget

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import focused
from tests.desktop.spoken_names import nameless
from tundish.desktop.chips import Chip
from tundish.desktop.different import neighbours, section
from tundish.desktop.own_box import TypeOver
from tundish.desktop.pages.closing import ClosingPage
from tundish.desktop.receipt_rows import LineRow
from tundish.errors import NotWantedError
from tundish.estimate import Job
from tundish.field import Entry, describe
from tundish.layout.design import Typed
from tundish.takeoff.alternatives import always
from tundish.takeoff.by_hand import STRIKES, LineByHand

TOP = "rooms.0.design.appliances.0.top"
LAYER = "rooms.0.survey.floor.build_up.0.thickness"
STUDS = "wc-1.studs"


def asked(fitter: Fitter, figure: str, number: str = "101") -> QWidget:
    """Open a job, ask where a figure is from, and put the keyboard into the column with F9."""
    fitter.open(number)
    fitter.settled()
    fitter.page("Alt+2")
    fitter.window.figure_asked.emit(figure)
    QTest.keyClick(fitter.window, Qt.Key.Key_F9)
    return fitter.window.where_from


def said(column: QWidget) -> str:
    words = [each.text() for each in column.findChildren(QLabel) if each.isVisible()]
    return "\n".join([*words, *(each.accessibleName() for each in column.findChildren(LineRow) if each.isVisible())])


def type_own(fitter: Fitter, words: str) -> None:
    column = fitter.window.where_from
    shown = [each.text() for each in column.findChildren(QWidget) if hasattr(each, "text") and each.isVisible()]
    fitter.press("Type another" if "Type another" in shown else "Type my own", column)
    box = column.findChildren(TypeOver)[0].box
    assert focused() is box
    QTest.keyClick(box, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(box, words)
    QTest.keyClick(box, Qt.Key.Key_Return)


def test_a_figure_typed_over_stands_and_what_was_worked_out_stays_beneath(fitter: Fitter) -> None:
    column = asked(fitter, f"figure:{STUDS}")
    worked_out = fitter.settled().rooms[0].figures[STUDS].value
    type_own(fitter, f"{worked_out:g}-3")
    now = fitter.settled().rooms[0].figures
    assert now[STUDS].value == worked_out - 3
    assert fitter.workspace.job.rooms[0].design.typed[0].figure == STUDS
    words = f"worked out {worked_out:g}, typed {worked_out - 3:g}"
    fitter.qtbot.waitUntil(lambda: words in said(column), timeout=WAIT_MS)
    assert "typed" in [each.shown.source for each in column.findChildren(LineRow) if each.isVisible()]
    assert fitter.workspace.session is not None
    assert fitter.workspace.session.undo_label.startswith("type Fixing studs")


def test_del_puts_the_worked_out_figure_back_and_undo_the_typed_one(fitter: Fitter) -> None:
    column = asked(fitter, f"figure:{STUDS}")
    worked_out = fitter.settled().rooms[0].figures[STUDS].value
    type_own(fitter, "350")
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "Put back (Del)" in [each.accessibleName() for each in column.findChildren(QWidget)], timeout=WAIT_MS)
    QTest.keyClick(column, Qt.Key.Key_Delete)
    assert fitter.settled().rooms[0].figures[STUDS].value == worked_out
    assert fitter.workspace.job.rooms[0].design.typed == ()
    fitter.undo()
    assert fitter.settled().rooms[0].figures[STUDS].value == 350


def test_words_that_are_no_length_stay_in_the_box_and_nothing_changes(fitter: Fitter) -> None:
    column = asked(fitter, f"figure:{STUDS}")
    before = fitter.workspace.job
    type_own(fitter, "about so")
    box = column.findChildren(TypeOver)[0].box
    assert (box.text(), focused() is box) == ("about so", True)
    assert "not a length" in said(column)
    assert fitter.workspace.job == before
    assert nameless(column) == []
    QTest.keyClick(box, Qt.Key.Key_Escape)
    assert not box.isVisible()
    assert fitter.workspace.job == before


def test_a_typed_figure_that_breaks_a_check_says_so_and_still_stands(fitter: Fitter) -> None:
    column = asked(fitter, "figure:wc-1.outlet")
    type_own(fitter, "100")
    assert fitter.settled().rooms[0].figures["wc-1.outlet"].value == 100
    fitter.qtbot.waitUntil(lambda: "It stands as you typed it" in said(column), timeout=WAIT_MS)
    assert "Fall of WC branch" in said(column)


def test_a_figure_that_follows_from_others_cannot_be_typed_over(fitter: Fitter) -> None:
    column = asked(fitter, "figure:wc-1.fall")
    assert "Type my own" not in [each.accessibleName() for each in column.findChildren(QWidget) if each.isVisible()]


def test_what_a_few_other_values_would_change_comes_beside_the_window(fitter: Fitter) -> None:
    column = asked(fitter, f"input:{TOP}")
    fitter.qtbot.waitUntil(lambda: "were different" in said(column), timeout=WAIT_MS)
    rows = {
        each.shown.label: each.shown
        for each in column.findChildren(LineRow)
        if each.isVisible() and each.shown.amount in {"breaks", "checks as now"}
    }
    assert list(rows) == ["400", "410", "430", "440"]
    assert rows["410"].amount == "breaks"
    assert rows["410"].note.startswith("Fall of WC branch no longer passes")
    assert rows["430"].amount == "checks as now"
    before = fitter.workspace.job
    assert before is fitter.settled().job, "nothing was changed to find out"


def test_neighbours_stay_within_what_an_input_may_be() -> None:
    declared = describe(Job, "rooms.0.survey.room.width")
    assert [each.value for each in neighbours(declared, Entry(300))] == [300 + 10, 300 + 20]
    assert [each.value for each in neighbours(declared, None)] == [1_780, 1_790, 1_810, 1_820]
    assert list(neighbours(describe(Job, "client.name"), None)) == []


def test_an_input_outside_a_room_has_no_part_of_it(fitter: Fitter) -> None:
    fitter.open("101")
    estimate = fitter.settled()
    assert section(estimate.job, estimate.book, ("terms.deposit", "If it were different"), always) is None


def test_what_is_settled_before_closing_for_another_value_is_said_where_nothing_else_changes(fitter: Fitter) -> None:
    fitter.open("101")
    estimate = fitter.settled()
    found = section(estimate.job, estimate.book, ("rooms.0.survey.water.pressure", "If it were different"), always)
    assert found is not None
    bar = [float(line.label.split()[0]) for line in found.lines]
    told = [f"Hot and cold pressure tested: Last chance to see a weep: {round(1.5 * each, 3):g} bar for 60 min." for each in bar]
    assert [line.note for line in found.lines] == told


def test_what_nobody_wants_any_more_is_left_in_the_middle_and_keeps_nothing_waiting(fitter: Fitter) -> None:
    """The column asks of a figure; the job is changed meanwhile. Papers and lists have a worker of their own."""
    fitter.open("101")
    estimate = fitter.settled()
    anew = replace(estimate.job, rooms=tuple(replace(each) for each in estimate.job.rooms))
    for path in (TOP, TOP.replace(".top", ".frame")):
        with pytest.raises(NotWantedError):
            section(anew, estimate.book, (path, ""), lambda: False)
    done: list[int] = []
    held = Event()
    fitter.workspace.beside.ask(held.wait, lambda _: None, lambda _: None)
    fitter.workspace.aside.ask(lambda: 1, done.append, lambda _: None)
    fitter.qtbot.waitUntil(lambda: done == [1], timeout=WAIT_MS)
    held.set()
    fitter.qtbot.waitUntil(lambda: not fitter.workspace.beside.busy, timeout=WAIT_MS)


def test_an_open_input_says_what_it_decides_and_by_when_and_settle_it_jumps_to_the_decision(fitter: Fitter) -> None:
    column = asked(fitter, f"input:{LAYER}", "102")
    assert "What it decides" in said(column)
    assert "Settle by first fix, Mon 30 Nov" in said(column)
    assert "figures move with it" in said(column)
    fitter.press("Settle it", column)
    page = fitter.window.frame.pages.currentWidget()
    assert isinstance(page, ClosingPage)
    assert page.table.chosen() == "family-bathroom/build-up"
    assert focused() is page.table


def test_what_decides_what_is_one_list_beside_the_decisions(fitter: Fitter) -> None:
    fitter.open("102")
    estimate = fitter.settled()
    page = fitter.page("Alt+9")
    assert isinstance(page, ClosingPage)
    next(each for each in page.findChildren(Chip) if each.choice.text == "What decides what").click()
    assert page.open_table.isVisible()
    assert not page.table.isVisible()
    model = page.open_table.table_model
    cells = [[(cell.text, cell.below) for cell in row.cells] for row in model.entries()]  # type: ignore[union-attr]  # all are rows
    assert cells[0][0] == ("Heating mat and levelling compound", "settled with: Floor build-up confirmed")
    assert cells[0][3] == ("First fix", "Mon 30 Nov")
    page.open_table.choose(f"input:{LAYER}")
    fitter.qtbot.waitUntil(lambda: "What it decides" in said(fitter.window.where_from), timeout=WAIT_MS)
    assert estimate.job is fitter.workspace.job
    fitter.workspace.set(LAYER, 14)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: model.place(f"input:{LAYER}") < 0, timeout=WAIT_MS)


def test_a_row_of_a_figure_typed_over_in_a_job_file_can_be_put_back(fitter: Fitter) -> None:
    column = asked(fitter, f"figure:{STUDS}")
    fitter.workspace.add("rooms.0.design.typed", Typed(figure=STUDS, value=Entry(351)), "type it")
    fitter.settled()
    fitter.press("Put back (Del)", column)
    assert fitter.workspace.job.rooms[0].design.typed == ()


def test_a_line_of_a_frame_is_compared_kit_against_loose(fitter: Fitter) -> None:
    column = asked(fitter, "line:frame-wc-1120")
    fitter.qtbot.waitUntil(lambda: "Kit or loose? WC 1" in said(column), timeout=WAIT_MS)
    rows = {each.shown.label: each.shown for each in column.findChildren(LineRow) if each.isVisible()}
    assert rows["WC frame 1120 with cistern, fittings apart"].note.startswith("the frame £49.80 less; bought besides Pan bend 90")
    assert "WC frame 1120, kit with cistern (chosen)" in rows


def test_one_press_puts_what_an_open_end_lacks_on_the_list_and_undo_takes_it_off(fitter: Fitter) -> None:
    column = asked(fitter, f"figure:{STUDS}")
    fitter.workspace.add("by_hand", LineByHand(item="tap-connector-15", does=STRIKES), "struck out")
    place = next(n for n, each in enumerate(fitter.settled().findings) if each.title == "Open end, cold")
    fitter.window.figure_asked.emit(f"check:{place}")
    assert "do not go into one another. It takes Straight tap connector 15 × ½." in said(column)
    fitter.press("Put Straight tap connector 15 × ½ on the list: bought, carried and priced with it.", column)
    after = fitter.settled()
    assert not [each for each in after.findings if each.rule == "ends/joined" and each.state != "passes"]
    assert [row.item for row in after.job.by_hand] == ["tap-connector-15", "tap-connector-15"]
    fitter.workspace.undo()
    assert len(fitter.settled().job.by_hand) == 1


def test_what_moves_by_less_than_is_shown_is_not_said_to_move(fitter: Fitter) -> None:
    fitter.open("104")
    estimate = fitter.settled()
    found = section(estimate.job, estimate.book, ("rooms.0.design.prewall.niches.0.from_left", "If it were different"), always)
    assert found is not None
    moved = [words.rpartition(" to ") for line in found.lines for words in line.note.split("; ") if " to " in words]
    assert moved
    assert not [words for words, _, now in moved if words.endswith(f" {now}")]
