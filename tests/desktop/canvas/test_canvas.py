"""Drawings on the screen: placed, hit, chosen, moved by key and mouse, and never holding on to an old drawing."""

from __future__ import annotations

import gc
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QAccessible, QColor, QImage, QPainter
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QPushButton, QStyleOptionGraphicsItem, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from tests.desktop.hands import click
from tundish.desktop import look, theme, tokens
from tundish.desktop.canvas import hits, inks
from tundish.desktop.canvas.painting import Placed, dimension_box, fitted, paint_drawing
from tundish.desktop.canvas.sketch import Sketch
from tundish.desktop.canvas.tape import note_room
from tundish.desktop.canvas.view import DrawingView
from tundish.desktop.look import Look
from tundish.documents.drawing import Box, Dimension, Drawing, Ellipse, Line, Shape, Style, Words

BASIN = Box(300, 700, 500, 150, "tbc", piece="basin 1")
PAN = Shape(((1000, 420), (1360, 420), (1280, 60), (1080, 60)), "ware", piece="wc 1")
HOT = Line(480, 0, 480, 560, "hot", piece="hot")
WIDTH = Dimension(0, -110, 1180, -110, "1,180", piece="wc 1", figure="wc1.left")
WALL = Drawing(
    "Wall A",
    (Box(0, 0, 2380, 1200, "board", filled=False), BASIN, PAN, HOT, Ellipse(1180, 225, 45, 45, "hidden"), Words(1180, 130, "WC 1"), WIDTH),
    (-160, -160, 2700, 1500),
    (("basin 1", "Basin 1"), ("hot", "Hot pipe"), ("wc 1", "WC 1")),
)


@pytest.fixture
def view(qtbot: QtBot) -> DrawingView:
    made = DrawingView("Wall A")
    made.resize(800, 500)
    qtbot.addWidget(made)
    made.show_drawing(WALL)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.setFocus()
    return made


def at(view: DrawingView, x: float, y: float) -> QPoint:
    return view.placed().point(x, y).toPoint()


def told(spy: QSignalSpy) -> list[list[object]]:
    return [list(spy.at(place)) for place in range(spy.count())]


@given(
    x=st.floats(-5000, 5000), y=st.floats(-5000, 5000), wide=st.floats(10, 20000), high=st.floats(10, 20000), room=st.integers(100, 2000)
)
def test_what_must_be_seen_is_inside_the_room(x: float, y: float, wide: float, high: float, room: int) -> None:
    placed = fitted((x, y, wide, high), QRectF(0, 0, room, room))
    box = placed.box(x, y, wide, high)
    assert QRectF(-0.01, -0.01, room + 0.02, room + 0.02).contains(box)
    assert placed.point(x, y + high).y() < placed.point(x, y).y()


def test_the_whole_drawing_is_seen_at_first_and_when_the_window_changes(view: DrawingView) -> None:
    for size in ((800, 500), (500, 700)):
        view.resize(*size)
        seen = view.placed().box(*WALL.extent)
        assert QRectF(view.viewport().rect()).contains(seen)


def test_points_of_the_view_are_points_of_the_drawing(view: DrawingView) -> None:
    mm = view.to_mm(view.placed().point(1180, 225))
    assert [mm.x(), mm.y()] == pytest.approx([1180, 225])


def test_zooming_keeps_the_point_under_the_pointer(view: DrawingView) -> None:
    pointer = QPointF(at(view, 1180, 225))
    before = view.to_mm(pointer)
    view.zoom(2, pointer)
    after = view.to_mm(pointer)
    pixel = 1 / view.placed().scale
    assert abs(after.x() - before.x()) <= pixel
    assert abs(after.y() - before.y()) <= pixel


def test_a_zoomed_view_stays_where_it_is_when_the_drawing_changes(view: DrawingView) -> None:
    view.zoom(3)
    before = view.placed()
    view.show_drawing(Drawing("Wall A", WALL.marks[:3], WALL.extent, WALL.pieces[:1]))
    assert view.placed() == before
    QTest.keyClick(view, Qt.Key.Key_Home)
    assert view.placed() != before


def test_a_press_chooses_the_topmost_piece_and_beside_it_nothing(view: DrawingView, qtbot: QtBot) -> None:
    chosen = QSignalSpy(view.chosen)
    click(view.viewport(), at(view, 1180, 380))
    click(view.viewport(), at(view, 2000, 900))
    assert told(chosen) == [["wc 1"], [""]]
    assert view.piece() == ""


def test_a_line_is_caught_from_a_few_pixels_away(view: DrawingView) -> None:
    beside = QPointF(at(view, 480, 300)) + QPointF(5, 0)
    assert hits.piece_at(WALL, view.placed(), beside) == "hot"
    assert hits.piece_at(WALL, view.placed(), beside + QPointF(20, 0)) == ""


def test_pressing_a_dimension_asks_for_its_figure(view: DrawingView, qtbot: QtBot) -> None:
    middle = dimension_box(WIDTH, view.placed()).center().toPoint()
    with qtbot.waitSignal(view.figure_asked) as asked:
        click(view.viewport(), middle)
    assert asked.args == ["wc1.left"]
    assert view.piece() == ""


def test_tab_walks_the_pieces_and_then_leaves(qtbot: QtBot) -> None:
    window = QWidget()
    column = QVBoxLayout(window)
    view, after = DrawingView("Wall A"), QPushButton("After")
    column.addWidget(view)
    column.addWidget(after)
    view.show_drawing(WALL)
    qtbot.addWidget(window)
    with qtbot.waitActive(window):
        window.show()
        window.activateWindow()
    view.setFocus()
    walked = []
    for _ in WALL.pieces:
        QTest.keyClick(view, Qt.Key.Key_Tab)
        walked.append(view.piece())
    assert walked == ["basin 1", "hot", "wc 1"]
    QTest.keyClick(view, Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is after


def test_arrows_nudge_the_chosen_piece_by_one_and_ten(view: DrawingView) -> None:
    nudged = QSignalSpy(view.nudged)
    view.choose("wc 1")
    QTest.keyClick(view, Qt.Key.Key_Right)
    QTest.keyClick(view, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    assert told(nudged) == [["wc 1", 1.0, 0.0], ["wc 1", 0.0, 10.0]]


def test_keys_without_a_piece_do_nothing(view: DrawingView) -> None:
    spies = [QSignalSpy(signal) for signal in (view.nudged, view.typed, view.remove_asked, view.opened)]
    for key in (Qt.Key.Key_Right, Qt.Key.Key_1, Qt.Key.Key_Delete, Qt.Key.Key_Return):
        QTest.keyClick(view, key)
    assert [spy.count() for spy in spies] == [0, 0, 0, 0]


def test_digits_and_d_and_delete_speak_of_the_piece(view: DrawingView) -> None:
    view.choose("wc 1")
    typed, stepped, removed = QSignalSpy(view.typed), QSignalSpy(view.dimension_stepped), QSignalSpy(view.remove_asked)
    QTest.keyClick(view, Qt.Key.Key_7)
    QTest.keyClick(view, Qt.Key.Key_D)
    QTest.keyClick(view, Qt.Key.Key_Delete)
    assert (told(typed), told(stepped), told(removed)) == ([["7"]], [["wc 1"]], [["wc 1"]])


def drag(view: DrawingView, start: QPoint, *ways: QPoint) -> None:
    QTest.mousePress(view.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    for way in ways:
        QTest.mouseMove(view.viewport(), way)


def test_dragging_tells_how_far_in_millimetres_and_once_when_it_is_over(view: DrawingView) -> None:
    dragged, dropped = QSignalSpy(view.dragged), QSignalSpy(view.dropped)
    start, end = at(view, 1180, 380), at(view, 1280, 380)
    drag(view, start, (start + end) / 2, end)
    QTest.mouseRelease(view.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, end)
    pixel = 1 / view.placed().scale
    assert dragged.count() >= 1
    assert told(dropped)[0][0] == "wc 1"
    assert told(dropped)[0][1] == pytest.approx(100, abs=2 * pixel)
    assert dropped.count() == 1


def test_a_press_that_hardly_moves_is_no_drag(view: DrawingView) -> None:
    dragged, dropped = QSignalSpy(view.dragged), QSignalSpy(view.dropped)
    start = at(view, 1180, 380)
    drag(view, start, start + QPoint(2, 1))
    QTest.mouseRelease(view.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    assert (dragged.count(), dropped.count()) == (0, 0)


def test_escape_during_a_drag_puts_all_back_and_nothing_is_dropped(view: DrawingView) -> None:
    left, dropped = QSignalSpy(view.drag_left), QSignalSpy(view.dropped)
    start = at(view, 1180, 380)
    drag(view, start, start + QPoint(30, 0))
    QTest.keyClick(view, Qt.Key.Key_Escape)
    QTest.mouseRelease(view.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start + QPoint(30, 0))
    assert told(left) == [["wc 1"]]
    assert dropped.count() == 0


def test_space_picks_up_and_a_press_puts_down_without_dragging(view: DrawingView, qtbot: QtBot) -> None:
    view.choose("basin 1")
    dropped = QSignalSpy(view.dropped)
    QTest.keyClick(view, Qt.Key.Key_Space)
    click(view.viewport(), at(view, 650, 775))
    pixel = 1 / view.placed().scale
    assert told(dropped)[0][0] == "basin 1"
    assert told(dropped)[0][1] == pytest.approx(100, abs=2 * pixel)


def test_pieces_are_found_by_a_screen_reader_with_name_and_place(view: DrawingView) -> None:
    shown = QAccessible.queryAccessibleInterface(view.viewport())
    children = [shown.child(place) for place in range(shown.childCount())]
    assert [child.text(QAccessible.Text.Name) for child in children] == ["Basin 1", "Hot pipe", "WC 1"]
    pan = next(child for child in children if child.text(QAccessible.Text.Name) == "WC 1")
    assert pan.rect().contains(view.viewport().mapToGlobal(at(view, 1180, 380)))


def test_a_chosen_piece_that_is_gone_is_no_longer_chosen(view: DrawingView) -> None:
    view.choose("wc 1")
    view.show_drawing(Drawing("Wall A", WALL.marks[:2], WALL.extent, WALL.pieces[:1]))
    assert view.piece() == ""


def test_a_hundred_redraws_during_a_drag_leave_one_item_and_no_dangling_one(view: DrawingView, qapp: QApplication) -> None:
    start = at(view, 1180, 380)
    drag(view, start, start + QPoint(20, 0))
    for place in range(100):
        moved = tuple(Box(300 + place, 700, 500, 150, "tbc", piece="basin 1") if mark is BASIN else mark for mark in WALL.marks)
        view.show_drawing(Drawing("Wall A", moved, WALL.extent, WALL.pieces))
        QTest.mouseMove(view.viewport(), start + QPoint(20 + place, 0))
        gc.collect() if place % 25 == 0 else None
        qapp.processEvents()
    QTest.mouseRelease(view.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    assert len(view.scene().items()) == 1
    assert len(view.viewport().findChildren(QWidget)) == len(WALL.pieces)


def colours(image: QImage, box: QRectF) -> set[str]:
    area = box.toAlignedRect().intersected(image.rect())
    return {image.pixelColor(x, y).name().upper() for x in range(area.left(), area.right()) for y in range(area.top(), area.bottom())}


def painted(drawing: Drawing, placed: Placed) -> QImage:
    image = QImage(800, 500, QImage.Format.Format_ARGB32)
    image.fill(QColor(look.now().hex("sheet")))
    painter = QPainter(image)
    paint_drawing(painter, drawing, placed)
    painter.end()
    return image


@pytest.mark.parametrize("style", list(inks.INKS))
@pytest.mark.parametrize("scheme", tokens.SCHEMES)
def test_every_style_is_painted_in_a_colour_of_the_theme(qapp: QApplication, style: Style, scheme: str) -> None:
    theme.apply(qapp, Look(scheme))
    drawing = Drawing("", (Box(100, 100, 60, 40, style),), (0, 0, 800, 500))
    placed = Placed(1, 0.5, 500.5)
    ink = inks.INKS[style]
    seen = colours(painted(drawing, placed), placed.box(95, 95, 70, 50))
    assert seen - {look.now().hex("sheet")}
    assert ink.line in tokens.colours(scheme)
    assert not ink.wash or ink.wash in tokens.colours(scheme)


def test_to_be_confirmed_is_dashed_as_well_as_coloured() -> None:
    assert inks.INKS["tbc"].dashes
    assert inks.INKS["hidden"].dashes
    assert not inks.INKS["ware"].dashes


def test_hatching_is_as_wide_at_any_scale(qapp: QApplication) -> None:
    def stripes(scale: float) -> int:
        drawing = Drawing("", (Box(100 / scale, 100 / scale, 600 / scale, 300 / scale, "hatch"),), (0, 0, 800, 500))
        image = painted(drawing, Placed(scale, 0, 500))
        row = [image.pixelColor(x, 250).lightness() < 250 for x in range(120, 680)]
        return sum(1 for before, after in pairwise(row) if after and not before)

    assert stripes(1) == pytest.approx(stripes(0.1), abs=1)
    assert stripes(1) > 50


def test_a_dimension_too_short_for_its_text_has_it_beside_the_line(qapp: QApplication) -> None:
    placed = Placed(1, 0, 500)
    wide = dimension_box(Dimension(0, 100, 400, 100, "400"), placed)
    narrow = dimension_box(Dimension(0, 100, 20, 100, "20"), placed)
    assert wide.center().y() == pytest.approx(400)
    assert narrow.center().y() < 390


def test_words_grow_with_the_text_size_and_are_never_smaller_than_a_note(qapp: QApplication) -> None:
    assert inks.words_font(1.0, bold=False).pixelSize() == 12
    theme.apply(qapp, Look(percent=150))
    assert inks.words_font(2.6, bold=False).pixelSize() == 18


def test_a_sketch_shows_a_drawing_and_says_what_it_is(qtbot: QtBot) -> None:
    sketch = Sketch()
    sketch.resize(300, 200)
    qtbot.addWidget(sketch)
    blank = sketch.grab().toImage()
    sketch.show_drawing(WALL, "Section at the stack", chosen="wc 1")
    assert sketch.grab().toImage() != blank
    assert sketch.accessibleName() == "Section at the stack"


@pytest.mark.parametrize("at", [QPointF(20, 20), QPointF(590, 20), QPointF(300, 395), QPointF(599, 399)])
def test_words_by_the_pointer_are_whole_within_what_is_seen(qapp: QApplication, at: QPointF) -> None:
    seen = QRectF(0, 0, 600, 400)
    assert seen.contains(note_room("1,950, least clearance", at, seen))


def test_words_by_the_pointer_are_whole_in_a_view_that_is_painted_with_its_window(qtbot: QtBot) -> None:
    """On a screen the painter's own room is the whole window's."""
    view = DrawingView("Wall A")
    qtbot.addWidget(view)
    view.resize(400, 300)
    view.show()
    view._sheet.note, view._sheet.pointer = "1,950, least clearance", QPointF(380, 100)
    window = QImage(900, 300, QImage.Format.Format_RGB32)
    window.fill(Qt.GlobalColor.white)
    painter = QPainter(window)
    view._sheet.paint(painter, QStyleOptionGraphicsItem(), view.viewport())
    painter.end()
    beyond = {window.pixel(x, y) for x in range(400, 900) for y in range(300)}
    assert beyond == {QColor(Qt.GlobalColor.white).rgb()}
