"""Boxes take, put back and step; rows say where a fact is from and what is wrong with what was typed."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from tests.desktop.hands import click
from tundish.desktop import theme
from tundish.desktop.boxes import Box, NoteBox, TickBox
from tundish.desktop.chooser import Chooser
from tundish.desktop.form_heads import Sum
from tundish.desktop.forms import Form, FormRow
from tundish.desktop.look import Look


def told(spy: QSignalSpy) -> list[list[object]]:
    return [list(spy.at(place)) for place in range(spy.count())]


@pytest.fixture
def form(qtbot: QtBot) -> Form:
    made = Form("Survey")
    made.resize(600, 400)
    made.add_group("Soil stack", "looking at wall A")
    made.add(FormRow("stack.left", "Centre from left wall", Box("", figure=True), unit="mm", note="to plaster"))
    made.add(FormRow("stack.invert", "Branch invert", Box("", figure=True), unit="mm", note="above bare floor"))
    chooser = Chooser("Pipe")
    chooser.show_choices(("Plastic, 110", "Cast iron, 110"), 0)
    made.add(FormRow("stack.pipe", "Pipe", chooser, box_wide=140))
    made.add(FormRow("stack.sound", "Sound", TickBox("Sound, socket clean"), box_wide=200))
    made.add(FormRow("stack.note", "Note", NoteBox("Note"), box_wide=0))
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.row("stack.left").show_value("130")
    made.row("stack.invert").show_value("176")
    return made


def box(form: Form, path: str) -> QWidget:
    found = form.row(path).box
    found.setFocus(Qt.FocusReason.TabFocusReason)
    return found


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab])
def test_enter_and_tab_take_the_value_and_go_to_the_next_box(form: Form, key: Qt.Key) -> None:
    taken = QSignalSpy(form.taken)
    first = box(form, "stack.left")
    QTest.keyClicks(first, "210+12+13")
    QTest.keyClick(first, key)
    assert told(taken) == [["stack.left", "210+12+13"]]
    assert QApplication.focusWidget() is form.row("stack.invert").box
    for path in ("stack.invert", "stack.pipe"):
        QTest.keyClick(form.row(path).box, key)
    assert QApplication.focusWidget() is form.row("stack.sound").box, "a list of choices lets it pass too"


def test_a_box_left_as_it_was_takes_nothing(form: Form) -> None:
    taken = QSignalSpy(form.taken)
    QTest.keyClick(box(form, "stack.left"), Qt.Key.Key_Return)
    assert taken.count() == 0


def test_escape_puts_the_old_value_back(form: Form) -> None:
    taken, back = QSignalSpy(form.taken), QSignalSpy(form.put_back)
    first = box(form, "stack.left")
    QTest.keyClicks(first, "999")
    QTest.keyClick(first, Qt.Key.Key_Escape)
    assert isinstance(first, Box)
    assert first.text() == "130"
    assert told(back) == [["stack.left"]]
    QTest.keyClick(first, Qt.Key.Key_Return)
    assert taken.count() == 0


@pytest.mark.parametrize(
    ("key", "modifier", "steps"),
    [
        (Qt.Key.Key_Up, Qt.KeyboardModifier.NoModifier, 1),
        (Qt.Key.Key_Down, Qt.KeyboardModifier.NoModifier, -1),
        (Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier, 10),
        (Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier, -10),
    ],
)
def test_arrows_step_a_figure(form: Form, key: Qt.Key, modifier: Qt.KeyboardModifier, steps: int) -> None:
    stepped = QSignalSpy(form.stepped)
    QTest.keyClick(box(form, "stack.invert"), key, modifier)
    assert told(stepped) == [["stack.invert", steps]]


def test_arrows_take_what_was_typed_before_they_step(form: Form) -> None:
    order: list[str] = []
    form.taken.connect(lambda path, text: order.append(f"taken {text}"))
    form.stepped.connect(lambda path, steps: order.append(f"stepped {steps}"))
    invert = box(form, "stack.invert")
    QTest.keyClicks(invert, "180")
    QTest.keyClick(invert, Qt.Key.Key_Up)
    assert order == ["taken 180", "stepped 1"]


def test_a_new_value_does_not_overwrite_what_is_being_typed(form: Form) -> None:
    left = box(form, "stack.left")
    assert isinstance(left, Box)
    QTest.keyClicks(left, "14")
    form.row("stack.left").show_value("131")
    assert left.text() == "14"
    QTest.keyClick(left, Qt.Key.Key_Escape)
    assert left.text() == "131"


def test_going_into_a_box_says_which_fact_it_is(form: Form) -> None:
    entered = QSignalSpy(form.entered)
    box(form, "stack.invert")
    assert told(entered)[-1] == ["stack.invert"]


def test_control_t_asks_for_to_be_confirmed(form: Form) -> None:
    asked = QSignalSpy(form.tbc_asked)
    QTest.keyClick(box(form, "stack.invert"), Qt.Key.Key_T, Qt.KeyboardModifier.ControlModifier)
    assert told(asked) == [["stack.invert"]]


def test_what_is_wrong_is_said_under_the_box_and_the_text_is_kept(form: Form, qapp: QApplication) -> None:
    row = form.row("stack.invert")
    high = row.sizeHint().height()
    QTest.keyClicks(box(form, "stack.invert"), "abc")
    row.show_error("not a length")
    assert isinstance(row.box, Box)
    assert row.box.text() == "abc"
    assert row.sizeHint().height() > high
    assert "not a length" in row.box.accessibleDescription()
    row.show_error("")
    assert row.sizeHint().height() == high


def test_a_long_question_takes_more_lines_in_a_narrow_form(form: Form, qapp: QApplication) -> None:
    row = form.row("stack.invert")
    row.show_question("Three widths, 2,380, 2,376, 2,383. Using 2,376, the least. That is more than usual; is it right?")
    qapp.processEvents()
    wide = row.height()
    form.resize(420, 400)
    qapp.processEvents()
    assert row.height() > wide


def test_a_box_is_read_out_with_its_unit_floor_source_and_state(form: Form) -> None:
    row = form.row("stack.invert")
    row.set_source("measured")
    row.set_tag("TBC")
    assert row.box.accessibleName() == "Branch invert, millimetres, above bare floor"
    assert row.box.accessibleDescription() == "Measured. To be confirmed"


def test_choosing_tells_the_text_and_showing_does_not(form: Form) -> None:
    taken = QSignalSpy(form.taken)
    form.row("stack.pipe").show_value("Cast iron, 110")
    assert taken.count() == 0
    QTest.keyClick(box(form, "stack.pipe"), Qt.Key.Key_Up)
    assert told(taken) == [["stack.pipe", "Plastic, 110"]]


def test_the_wheel_over_a_chooser_scrolls_the_form_and_changes_nothing(form: Form, qapp: QApplication) -> None:
    chooser = form.row("stack.pipe").box
    form.row("stack.left").box.setFocus()
    assert isinstance(chooser, Chooser)
    at = QPointF(10, 10)
    turn = QWheelEvent(
        at, at, QPoint(), QPoint(0, -120), Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False
    )
    qapp.sendEvent(chooser, turn)
    assert chooser.currentText() == "Plastic, 110"


def test_a_tick_says_yes_and_no(form: Form) -> None:
    taken = QSignalSpy(form.taken)
    tick = box(form, "stack.sound")
    QTest.keyClick(tick, Qt.Key.Key_Space)
    QTest.keyClick(tick, Qt.Key.Key_Space)
    assert told(taken) == [["stack.sound", "yes"], ["stack.sound", "no"]]


def test_words_are_taken_when_the_keyboard_leaves_and_put_back_by_escape(form: Form) -> None:
    taken = QSignalSpy(form.taken)
    note = box(form, "stack.note")
    QTest.keyClicks(note, "boxed in")
    QTest.keyClick(note, Qt.Key.Key_Escape)
    assert isinstance(note, NoteBox)
    assert note.toPlainText() == ""
    QTest.keyClicks(note, "cast collar")
    box(form, "stack.left")
    assert told(taken) == [["stack.note", "cast collar"]]


def test_a_press_on_the_label_goes_to_its_box(form: Form, qtbot: QtBot) -> None:
    click(form.row("stack.invert"), QPoint(30, 18))
    assert QApplication.focusWidget() is form.row("stack.invert").box


def test_showing_a_group_brings_it_up_with_the_keyboard_in_its_first_box(form: Form, qapp: QApplication) -> None:
    form.add_group("Water")
    for place in range(20):
        form.add(FormRow(f"water.{place}", f"Size {place}", Box("", figure=True), unit="mm"))
    qapp.processEvents()
    form.show_group("Water")
    assert QApplication.focusWidget() is form.row("water.0").box
    assert form.verticalScrollBar().value() > 0
    assert form.group_in_view(["Stack", "Water"]) == "Water"
    form.verticalScrollBar().setValue(0)
    assert form.group_in_view(["Stack", "Water"]) == "Stack"


def test_showing_a_group_without_boxes_goes_to_its_first_button_and_leaves_the_next_group_alone(form: Form, qapp: QApplication) -> None:
    form.add_group("Asked for")
    press = QPushButton("Ask for another")
    form.add_part(press)
    form.add_group("Water")
    form.add(FormRow("water.0", "Size", Box("", figure=True), unit="mm"))
    qapp.processEvents()
    form.show_group("Asked for")
    assert QApplication.focusWidget() is press


def test_a_choice_is_as_wide_as_its_words_where_there_is_room(form: Form, qapp: QApplication) -> None:
    chooser = Chooser("Rounded")
    chooser.show_choices(("on the total, to the nearest penny", "by line"), 0)
    row = form.add(FormRow("vat.rounded", "VAT is rounded", chooser, box_wide=190))
    qapp.processEvents()
    assert chooser.width() == chooser.sizeHint().width() > 190
    form.resize(430, 400)
    qapp.processEvents()
    assert chooser.geometry().right() < row.width()


def test_a_range_is_seen_whole_in_its_box(form: Form) -> None:
    row = form.row("stack.left")
    narrow = row.box.width()
    row.show_value("2,400 to 2,420")
    assert row.box.width() > row.box.fontMetrics().horizontalAdvance("2,400 to 2,420") + 16
    row.show_value("130")
    assert row.box.width() == narrow


def test_a_form_can_be_filled_anew(form: Form, qapp: QApplication) -> None:
    form.clear()
    form.add(FormRow("room.width", "Width", Box("", figure=True), unit="mm"))
    assert [row.path for row in form.rows()] == ["room.width"]


def test_rows_grow_with_the_text(form: Form, qapp: QApplication) -> None:
    theme.apply(qapp, Look(percent=150))
    qapp.processEvents()
    row = form.row("stack.invert")
    assert row.height() >= 54
    assert row.box.width() == 126


def test_a_sum_is_read_out(qtbot: QtBot) -> None:
    made = Sum("Finished floor above bare")
    qtbot.addWidget(made)
    made.show_value("28", "mm")
    assert made.accessibleName() == "Finished floor above bare 28 mm"
