"""Before closing: decisions settled one by one, and the wall closed."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QWidget

from tests.desktop.fitter import Fitter
from tests.desktop.spoken_names import nameless
from tundish.desktop.boxes import Box
from tundish.desktop.cells import Row
from tundish.desktop.chooser import Chooser
from tundish.desktop.pages.closing import ClosingPage
from tundish.desktop.reason_strip import ReasonStrip
from tundish.desktop.standing import unsettled
from tundish.documents import closing_sheet
from tundish.field import Entry, get
from tundish.session import LOCKED
from tundish.writers.text import as_text

BUILD_UP = "family-bathroom/build-up"
LAYER = "rooms.0.survey.floor.build_up.0.thickness"


def opened(fitter: Fitter, number: str = "102") -> ClosingPage:
    fitter.open(number)
    fitter.settled()
    page = fitter.page("Alt+9")
    assert isinstance(page, ClosingPage)
    return page


def state(page: ClosingPage, key: str) -> str:
    return row(page, key).cells[-1].text


def row(page: ClosingPage, key: str) -> Row:
    model = page.table.table_model
    found = model.entry(model.place(key))
    assert isinstance(found, Row)
    return found


def shown_in(part: QWidget) -> list[str]:
    return [each.text() for each in part.findChildren(QLabel) if each.isVisible()]


def said(page: ClosingPage) -> str:
    return " ".join(shown_in(page))


def strip(page: ClosingPage) -> ReasonStrip:
    return page.findChildren(ReasonStrip)[0]


def write(box: Box, words: str) -> None:
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClick(box, Qt.Key.Key_Delete)
    QTest.keyClicks(box, words)


def settle(
    fitter: Fitter, page: ClosingPage, key: str, state: str = "Settled", who: str = "D. Pask", shown: str = "Rang, 28 in all"
) -> None:
    page.table.choose(key)
    page.form.state.choose(state)
    write(page.form.who, who)
    write(page.form.shown_by, shown)
    if page.form.readings["start"].isVisible():
        read(page, "38", "38", "60")
    fitter.press("Record it", page)


def read(page: ClosingPage, *readings: str) -> None:
    for box, words in zip(page.form.readings.values(), readings, strict=True):
        write(box, words)


def button(page: ClosingPage, words: str) -> QPushButton:
    return next(each for each in page.findChildren(QPushButton) if each.text() == words)


def test_rows_stand_under_the_stage_they_are_due_by(fitter: Fitter) -> None:
    page = opened(fitter)
    entries = [page.table.table_model.entry(place) for place in range(page.table.table_model.rowCount())]
    keys = [each.id for each in entries]
    decisions = fitter.settled().decisions
    first = [each.key for each in decisions if each.by == "By first fix"]
    boarding = [each.key for each in decisions if each.by == "By boarding"]
    assert keys == ["By first fix", *first, "By boarding", *boarding]


def test_settling_keeps_who_when_and_how_and_confirms_what_hangs_on_it(fitter: Fitter) -> None:
    page = opened(fitter)
    assert get(fitter.workspace.job, LAYER).low is not None or get(fitter.workspace.job, LAYER).tbc
    settle(fitter, page, BUILD_UP)
    fitter.settled()
    assert state(page, BUILD_UP) == "Settled"
    record = next(each for each in fitter.workspace.job.settled if each.decision == BUILD_UP)
    assert (record.who, record.evidence, record.rests_on) == ("D. Pask", "Rang, 28 in all", "build-up 28 mm")
    assert LAYER not in set(unsettled(fitter.workspace.job))
    assert not any(figure.tbc for figure in [fitter.settled().rooms[0].figures["finished_floor"]])


def test_settling_is_one_step_that_undo_takes_back(fitter: Fitter) -> None:
    page = opened(fitter)
    before = fitter.workspace.job
    settle(fitter, page, BUILD_UP)
    assert fitter.workspace.session is not None
    assert fitter.workspace.session.undo_label == "settle Floor build-up confirmed"
    fitter.undo()
    assert fitter.workspace.job == before
    assert state(page, BUILD_UP) == "Asked"


def test_what_is_half_typed_waits_for_its_row_and_not_for_another_job_s(fitter: Fitter) -> None:
    page = opened(fitter)
    page.table.choose(BUILD_UP)
    other = next(each.key for each in fitter.settled().decisions if each.key != BUILD_UP and state(page, each.key) == "Open")
    write(page.form.who, "E. Vance")
    page.table.choose(other)
    assert page.form.who.text() == ""
    assert "not recorded yet" not in said(page)
    page.table.choose(BUILD_UP)
    assert page.form.who.text() == "E. Vance"
    assert "not recorded yet" in said(page)
    fitter.press("Record it", page)
    assert "not recorded yet" not in said(page)
    page.table.choose(other)
    write(page.form.who, "Mrs N. Body")
    opened(fitter, "101")
    opened(fitter)
    page.table.choose(other)
    assert page.form.who.text() == ""


def test_nothing_is_settled_by_nobody(fitter: Fitter) -> None:
    page = opened(fitter)
    settle(fitter, page, BUILD_UP, who="", shown="seen")
    assert "Say who settled it." in said(page)
    settle(fitter, page, BUILD_UP, state="Not needed", shown="")
    assert "Say why it is not needed." in said(page)
    assert state(page, BUILD_UP) == "Asked"


def test_a_date_that_is_none_is_said(fitter: Fitter) -> None:
    page = opened(fitter)
    page.table.choose(BUILD_UP)
    write(page.form.when, "soon")
    fitter.press("Record it", page)
    assert "When:" in said(page)


def test_a_settled_row_falls_open_when_what_it_rests_on_changes_and_says_why(fitter: Fitter) -> None:
    page = opened(fitter)
    settle(fitter, page, BUILD_UP)
    fitter.settled()
    fitter.workspace.set(LAYER, 17)
    fitter.settled()
    assert state(page, BUILD_UP) == "Open"
    assert row(page, BUILD_UP).cells[1].below == "Open again: was build-up 28 mm, now build-up 31 mm"


def test_close_the_wall_is_dim_and_says_what_is_in_the_way(fitter: Fitter) -> None:
    page = opened(fitter)
    assert not button(page, "Close the wall").isEnabled()
    assert "In the way of closing: Floor build-up confirmed" in said(page)


def test_the_wall_can_be_closed_when_all_is_settled_and_opened_up_again(fitter: Fitter) -> None:
    page = opened(fitter, "101")
    for decision in fitter.settled().decisions:
        settle(fitter, page, decision.key)
    fitter.settled()
    assert button(page, "Close the wall").isEnabled()
    fitter.press("Close the wall", page)
    assert "everything settled" in said(page)
    fitter.press("Open up again", page)
    write(strip(page).box, "A weep at the valve")
    fitter.press("Open up", page)
    assert button(page, "Close the wall").isVisible()


def test_close_anyway_asks_for_a_reason_in_the_page_and_keeps_it(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Close anyway", page)
    assert not strip(page).do.isEnabled()
    write(strip(page).box, "Client wants it shut")
    QTest.mouseClick(strip(page).do, Qt.MouseButton.LeftButton)
    record = next(each for each in fitter.workspace.job.settled if each.decision == "closed")
    assert (record.state, record.evidence) == ("settled", "Client wants it shut")
    assert "Client wants it shut." in said(page)


def test_choosing_a_row_shows_what_it_rests_on(fitter: Fitter) -> None:
    page = opened(fitter)
    page.table.choose(BUILD_UP)
    column = fitter.window.where_from
    fitter.qtbot.waitUntil(lambda: "Floor build-up confirmed" in shown_in(column))
    assert "build-up 28 mm" in [each.accessibleName() for each in column.findChildren(QWidget)]


def test_every_control_has_a_name(fitter: Fitter) -> None:
    page = opened(fitter)
    page.table.choose(BUILD_UP)
    assert nameless(page) == []


PRESSURE, AIR = "family-bathroom/pressure-test", "family-bathroom/soil-test"


def proven(fitter: Fitter, page: ClosingPage, key: str, *readings: str) -> None:
    """A test settled with these readings."""
    page.table.choose(key)
    page.form.state.choose("Settled")
    write(page.form.who, "D. Pask")
    read(page, *readings)
    fitter.press("Record it", page)
    fitter.settled()


def test_only_a_test_has_boxes_for_readings(fitter: Fitter) -> None:
    page = opened(fitter)
    page.table.choose(BUILD_UP)
    assert not any(box.isVisible() for box in page.form.readings.values())
    page.table.choose(PRESSURE)
    assert all(box.isVisible() for box in page.form.readings.values())
    assert "At the start, bar" in shown_in(page.form)
    page.table.choose(AIR)
    assert "At the start, mm" in shown_in(page.form)
    assert nameless(page) == []


def test_tab_goes_through_the_form_as_it_is_laid_out(fitter: Fitter) -> None:
    page = opened(fitter)
    page.table.choose(PRESSURE)
    form = page.form
    stops = (form.state, form.who, form.when, *form.readings.values(), form.shown_by, form.record)
    form.state.setFocus()
    for stop, after in pairwise(stops):
        QTest.keyClick(stop, Qt.Key.Key_Tab)
        assert QApplication.focusWidget() is after


def test_the_readings_of_a_test_are_judged(fitter: Fitter) -> None:
    page = opened(fitter)
    proven(fitter, page, AIR, "38", "36", "3")
    assert "It fell by 2 mm: find the leak, mend it and test again." in said(page)
    proven(fitter, page, AIR, "38", "38", "2")
    assert "It has to be held for 3 minutes at least." in said(page)
    proven(fitter, page, AIR, "much", "38", "3")
    assert "At the start:" in said(page)
    proven(fitter, page, AIR, "38", "", "3")
    assert "Read the gauge at the start and at the end" in said(page)
    assert state(page, AIR) == "Open"
    proven(fitter, page, AIR, "38", "38", "3")
    assert state(page, AIR) == "Settled"
    assert row(page, AIR).cells[4].text == "38 mm, after 3 minutes 38 mm"


def test_a_pressure_test_starts_at_one_and_a_half_times_what_stands_and_opens_again_when_that_changes(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.workspace.set("rooms.0.survey.water.pressure", 2)
    fitter.settled()
    proven(fitter, page, PRESSURE, "2.5", "2.5", "60")
    assert "It has to start at 3 bar at least: 1.5 times the standing pressure." in said(page)
    proven(fitter, page, PRESSURE, "3", "3", "60")
    assert state(page, PRESSURE) == "Settled"
    fitter.workspace.set("rooms.0.survey.water.pressure", 3)
    fitter.settled()
    assert state(page, PRESSURE) == "Open"
    assert "now" in row(page, PRESSURE).cells[1].below


def test_readings_that_no_longer_prove_it_open_it_again(fitter: Fitter) -> None:
    page = opened(fitter)
    proven(fitter, page, AIR, "38", "38", "3")
    record = next(each for each in fitter.workspace.job.settled if each.decision == AIR)
    lost = replace(record, end=Entry(30))
    job = fitter.workspace.job
    fitter.workspace.edit("alter", replace(job, settled=(*(each for each in job.settled if each.decision != AIR), lost)))
    fitter.settled()
    assert state(page, AIR) == "Open"
    assert row(page, AIR).cells[1].below.startswith("Open again: It fell by 8 mm")


def close_anyway(fitter: Fitter, page: ClosingPage) -> None:
    fitter.press("Close anyway", page)
    write(strip(page).box, "Client wants it shut")
    QTest.mouseClick(strip(page).do, Qt.MouseButton.LeftButton)
    fitter.settled()


def test_a_closed_wall_locks_setting_out_and_says_why(fitter: Fitter) -> None:
    page = opened(fitter)
    close_anyway(fitter, page)
    heard: list[str] = []
    fitter.workspace.said.connect(heard.append)
    before = fitter.workspace.job
    assert [each.text for each in fitter.workspace.set(LAYER, 17)] == [LOCKED]
    setting_out = fitter.page("Alt+2")
    view = setting_out.view  # type: ignore[attr-defined]  # the page has a drawing
    view.setFocus()
    view.choose("wc-1")
    QTest.keyClick(view, Qt.Key.Key_Right)
    QTest.keyClick(view, Qt.Key.Key_Delete)
    view.dragged.emit("wc-1", 40.0, 0.0)
    view.dropped.emit("wc-1", 40.0, 0.0)
    assert fitter.workspace.job is before
    assert fitter.workspace.shown is before
    assert heard
    assert set(heard) == {LOCKED}
    assert fitter.window.run.entry("setting_out").accessibleName().endswith("closed")
    assert "Setting out is locked." in said(opened(fitter))


def test_what_is_settled_after_closing_still_confirms(fitter: Fitter) -> None:
    page = opened(fitter)
    close_anyway(fitter, page)
    assert "Still open: Floor build-up confirmed" in said(page)
    settle(fitter, page, BUILD_UP)
    fitter.settled()
    assert state(page, BUILD_UP) == "Settled"
    assert LAYER not in set(unsettled(fitter.workspace.job))


def test_opened_up_again_says_why_on_page_and_sheet_and_unlocks(fitter: Fitter) -> None:
    page = opened(fitter)
    close_anyway(fitter, page)
    assert "Closed with things open, because: Client wants it shut." in as_text(closing_sheet.build(fitter.settled()))
    fitter.press("Open up again", page)
    write(strip(page).box, "A weep at the valve")
    fitter.press("Open up", page)
    assert "A weep at the valve." in said(page)
    assert "opened up again" in as_text(closing_sheet.build(fitter.settled()))
    assert fitter.workspace.set(LAYER, 17) == ()


def add_own(fitter: Fitter, page: ClosingPage, what: str = "Extractor duct taped") -> str:
    page.table.setFocus()
    QTest.keyClick(page.table, Qt.Key.Key_Insert)
    write(page.own_row.what, what)
    write(page.own_row.why, "It drips when it is not")
    write(page.own_row.shown_by, "Photo")
    fitter.press("Add it", page)
    fitter.settled()
    return fitter.workspace.job.own_rows[-1].key


def test_a_row_of_ones_own_stands_with_the_others_is_in_the_way_and_is_settled(fitter: Fitter) -> None:
    page = opened(fitter)
    key = add_own(fitter, page)
    assert page.table.chosen() == key
    assert row(page, key).cells[1].text == "Extractor duct taped"
    assert row(page, key).cells[1].below == "It drips when it is not"
    assert state(page, key) == "Open"
    settle(fitter, page, key, shown="Photo 4")
    fitter.settled()
    assert state(page, key) == "Settled"
    paper = as_text(closing_sheet.build(fitter.settled()))
    assert "Extractor duct taped" in paper
    assert "Photo 4" in paper
    opened_again, _ = fitter.workspace.store.open(fitter.workspace.job_id)
    assert opened_again.job is not None
    assert opened_again.job.own_rows == fitter.workspace.job.own_rows


def test_a_row_of_ones_own_is_taken_out_with_what_was_recorded_and_a_rule_s_is_not(fitter: Fitter) -> None:
    page = opened(fitter)
    before = fitter.workspace.job
    key = add_own(fitter, page)
    settle(fitter, page, key)
    fitter.settled()
    page.table.choose(BUILD_UP)
    assert not page.form.out.isVisible()
    QTest.keyClick(page.table, Qt.Key.Key_Delete)
    assert fitter.workspace.job.own_rows
    page.table.choose(key)
    fitter.press("Take out this row", page)
    fitter.settled()
    assert fitter.workspace.job == before
    again = add_own(fitter, page, "Another")
    assert again
    assert state(page, again) == "Open"


def test_nothing_is_added_without_words(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Add a row", page)
    assert not page.own_row.do.isEnabled()
    assert nameless(page) == []


def test_a_choice_and_a_tick_that_a_closed_wall_refuses_stay_as_they_were(fitter: Fitter) -> None:
    page = opened(fitter)
    close_anyway(fitter, page)
    before = fitter.workspace.job
    survey = fitter.page("Alt+1")
    form = survey.form  # type: ignore[attr-defined]  # the page is a form
    rows = {each.path: each for each in form.rows()}
    choosers = [each for each in rows.values() if isinstance(each.box, Chooser) and each.box.count() > 1]
    assert choosers
    box = choosers[0].box
    assert isinstance(box, Chooser)
    shown = box.currentText()
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Down if box.currentIndex() == 0 else Qt.Key.Key_Up)
    assert fitter.workspace.job is before
    assert box.currentText() == shown


def test_ctrl_p_prints_the_closing_sheet(fitter: Fitter) -> None:
    page = opened(fitter)
    close_anyway(fitter, page)
    QTest.keyClick(fitter.window, Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier)
    assert (fitter.window.current, fitter.workspace.paper) == ("paper", "closing")
