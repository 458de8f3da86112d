"""Moving on the wall, live: what is seen while a piece is held, what is kept of it, what pulls it, and what Escape brings back."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from itertools import pairwise

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetrics, QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import click, key
from tests.desktop.pages.test_setting_out import CENTRE, TOP, opened, press_digits, room, steps, tab_to, value, words
from tundish.desktop.canvas.hits import handle_at
from tundish.desktop.canvas.painting import dimension_box, fitted, handles_of, outline, ware_of
from tundish.desktop.moves import thing_of
from tundish.desktop.pages.setting_out import SettingOutPage
from tundish.desktop.snapping import Pull, snapped
from tundish.documents.drawing import Dimension, Shape
from tundish.field import put
from tundish.layout.design import Design
from tundish.measure import show_money

NONE = Qt.KeyboardModifier.NoModifier
ALT = Qt.KeyboardModifier.AltModifier


def handle(page: SettingOutPage, piece: str, axis: str) -> QPoint:
    around = page.view.box_of(piece).adjusted(-5, -5, 5, 5)
    return next(at for way, at in handles_of(around, top=True) if way == axis).toPoint()


def mouse(page: SettingOutPage, kind: QEvent.Type, at: QPoint, modifiers: Qt.KeyboardModifier = NONE) -> None:
    view = page.view.viewport()
    where = QPointF(at)
    left = Qt.MouseButton.LeftButton
    button = Qt.MouseButton.NoButton if kind == QEvent.Type.MouseMove else left
    held = Qt.MouseButton.NoButton if kind == QEvent.Type.MouseButtonRelease else left
    QApplication.sendEvent(view, QMouseEvent(kind, where, QPointF(view.mapToGlobal(at)), button, held, modifiers))


@contextmanager
def dragging(
    page: SettingOutPage, piece: str, axis: str, by_mm: tuple[float, float], modifiers: Qt.KeyboardModifier = NONE
) -> Iterator[QPoint]:
    """A handle pressed and dragged in three moves; let go at the end unless it was let go of before."""
    start, scale = handle(page, piece, axis), page.view.placed().scale
    end = start + QPoint(round(by_mm[0] * scale), -round(by_mm[1] * scale))
    mouse(page, QEvent.Type.MouseButtonPress, start)
    for share in (1, 2, 3):
        mouse(page, QEvent.Type.MouseMove, start + (end - start) * share / 3, modifiers)
    yield end
    mouse(page, QEvent.Type.MouseButtonRelease, end, modifiers)


def ware_left(page: SettingOutPage, piece: str) -> float:
    shape = next(mark for mark in page.view.drawing().marks if isinstance(mark, Shape) and mark.piece == piece)
    return min(x for x, _ in shape.points)


def undo_label(fitter: Fitter) -> str:
    assert fitter.workspace.session is not None
    return fitter.workspace.session.undo_label


def test_a_drag_is_seen_at_every_move_and_kept_once(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    before, done, left = value(fitter, CENTRE), steps(fitter), ware_left(page, "wc-1")
    with dragging(page, "wc-1", "along", (60, 0)):
        assert ware_left(page, "wc-1") > left
        assert value(fitter, CENTRE) == before, "nothing is kept while it is held"
        assert {label: now for label, _, now in page.moves.rows()}["From left wall"] != "390"
    moved = value(fitter, CENTRE)
    assert steps(fitter) == done + 1
    assert undo_label(fitter) == f"move WC 1 {moved - before:g} mm"
    fitter.undo()
    assert value(fitter, CENTRE) == before


def test_the_tally_follows_while_it_is_held(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    soil = fitter.settled().rooms[0].pipes_of("soil")[0].run.value
    with dragging(page, "wc-1", "along", (-80, 0)):
        shown = fitter.workspace.shown
        fitter.qtbot.waitUntil(lambda: fitter.workspace.estimate is not None and fitter.workspace.estimate.job is shown, timeout=WAIT_MS)
        assert fitter.workspace.estimate is not None
        assert fitter.workspace.estimate.rooms[0].pipes_of("soil")[0].run.value > soil


def test_escape_during_a_drag_restores_everything(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    before, done, left = value(fitter, CENTRE), steps(fitter), ware_left(page, "wc-1")
    with dragging(page, "wc-1", "along", (100, 0)):
        assert ware_left(page, "wc-1") != left
        key(Qt.Key.Key_Escape)
        assert ware_left(page, "wc-1") == left
    assert (value(fitter, CENTRE), steps(fitter)) == (before, done)
    assert fitter.settled().job is fitter.workspace.job


def test_the_handle_on_top_raises_and_says_so(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    before = value(fitter, TOP)
    with dragging(page, "wc-1", "up", (40, 60), ALT):
        pass
    raised = value(fitter, TOP) - before
    assert raised > 0
    assert value(fitter, CENTRE) == 390
    assert undo_label(fitter) == f"raise top of pan, WC 1, {raised:g} mm"


def test_a_run_of_arrows_is_named_by_all_of_it(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    for _ in range(3):
        key(Qt.Key.Key_Down)
    assert undo_label(fitter) == "lower top of pan, WC 1, 3 mm"
    assert ware_left(page, "wc-1") == room(fitter).placed[0].centre.value - room(fitter).placed[0].ware.size("width").value / 2


def test_space_picks_up_arrows_place_and_space_puts_down(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    done, left = steps(fitter), ware_left(page, "wc-1")
    key(Qt.Key.Key_Space)
    for _ in range(2):
        key(Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert (value(fitter, CENTRE), ware_left(page, "wc-1")) == (390, left + 20)
    key(Qt.Key.Key_Space)
    assert (value(fitter, CENTRE), steps(fitter), undo_label(fitter)) == (410, done + 1, "move WC 1 20 mm")


@pytest.mark.parametrize("view", [0, 1], ids=["elevation", "plan"])
def test_what_is_picked_up_is_placed_by_a_press_without_dragging(view: int, fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    done, placed = steps(fitter), page.view.placed()
    middle = outline(ware_of(page.view.drawing(), "wc-1")[view], placed).boundingRect().center()
    key(Qt.Key.Key_Space)
    click(page.view.viewport(), QPointF(middle.x() + 200 * placed.scale, middle.y()).toPoint())
    assert steps(fitter) == done + 1
    assert value(fitter, CENTRE) == pytest.approx(590, abs=8 / placed.scale + 10), "as far as a pull reaches"
    assert value(fitter, TOP) == 420


def test_escape_puts_back_what_was_picked_up(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    done = steps(fitter)
    key(Qt.Key.Key_Space)
    key(Qt.Key.Key_Right)
    key(Qt.Key.Key_Escape)
    assert (value(fitter, CENTRE), steps(fitter)) == (390, done)
    assert fitter.workspace.shown is fitter.workspace.job


def test_a_broken_fall_is_drawn_with_its_shortfall_and_still_allowed(fitter: Fitter) -> None:
    page = opened(fitter)
    assert not [each for each in words(page) if each.startswith("fall ")]
    tab_to(page, "wc-1")
    for _ in range(4):
        key(Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    assert [each for each in words(page) if each.startswith("fall ") and each.endswith(" short")]
    assert value(fitter, TOP) == 380


def test_a_pull_is_named_by_the_pointer(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    least = fitter.workspace.book.figure("space.wc_centre").value
    for _ in range(7):
        key(Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    with dragging(page, "wc-1", "along", (least - 460, 0)):
        assert page.view._sheet.note == f"{least:g}, least clearance"
    assert value(fitter, CENTRE) == least


@pytest.mark.parametrize(("wanted", "grid", "found"), [(406, 10, 410), (406, 5, 405), (406.4, 1, 406), (406.44, 0, 406.4), (421, 10, 425)])
def test_what_is_not_pulled_lands_on_the_grid(wanted: float, grid: float, found: float) -> None:
    assert snapped(wanted, (Pull(425, "tile joint"),), grid, 8).value == found


def test_alt_held_nothing_pulls(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    with dragging(page, "wc-1", "along", (53, 0), ALT):
        assert page.view._sheet.note.isdecimal()


def test_a_dimension_that_is_pressed_can_be_typed_into(fitter: Fitter) -> None:
    page = opened(fitter)
    mark = next(each for each in page.view.drawing().marks if isinstance(each, Dimension) and each.text == "630")
    click(page.view.viewport(), dimension_box(mark, page.view.placed()).center().toPoint())
    assert page.box.title() == "Bidet 1 from WC 1, centre to centre"
    press_digits("640")
    key(Qt.Key.Key_Return)
    assert room(fitter).placed[1].centre.value == 390 + 640


def test_the_height_of_the_prewall_is_typed_from_the_floor_it_is_shown_from(fitter: Fitter) -> None:
    page = opened(fitter)
    mark = next(each for each in page.view.drawing().marks if isinstance(each, Dimension) and each.figure == "top_of_prewall")
    click(page.view.viewport(), dimension_box(mark, page.view.placed()).center().toPoint())
    press_digits("1250")
    key(Qt.Key.Key_Return)
    assert room(fitter).top.value == 1250


def test_the_tape_measures_between_two_presses_and_by_keys(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Measure", page)
    tape = page.view.tape()
    assert tape is not None
    for _ in range(2):
        key(Qt.Key.Key_Right)
    key(Qt.Key.Key_Return)
    for _ in range(3):
        key(Qt.Key.Key_Right)
    for _ in range(4):
        key(Qt.Key.Key_Up)
    assert tape.words() == "Along 30, up 40, straight 50"
    key(Qt.Key.Key_Escape)
    assert page.view.tape() is None
    fitter.press("Measure", page)
    placed = page.view.placed()
    for x, z in ((0, 1228), (2450, 1228)):
        click(page.view.viewport(), placed.point(x, z).toPoint())
    tape = page.view.tape()
    assert tape is not None
    assert tape.words() == "Along 2,450, up 0, straight 2,450", "corners catch the tape"


def test_a_second_prewall_has_its_own_chip_and_takes_its_own_pieces(fitter: Fitter) -> None:
    page = opened(fitter)
    assert not page.walls.isVisible()
    next(each for each in page.tools.adds.menu().actions() if each.data() == "along").trigger()
    fitter.settled()
    assert page.walls.isVisible()
    assert page.view.accessibleName() == "Wall B, looking at it"
    next(each for each in page.tools.adds.menu().actions() if each.data() == "basin").trigger()
    rooms = fitter.settled().rooms
    assert [len(each.placed) for each in rooms] == [3, 1]
    assert page.view.piece() == rooms[1].placed[0].key
    fitter.press("Whole room", page)
    assert {"0/wc-1", rooms[1].placed[0].key} <= set(dict(page.view.drawing().pieces))
    fitter.press("Whole room", page)
    page.view.choose("")
    page._choose("")
    fitter.press("Remove this pre-wall", page)
    assert [len(each.placed) for each in fitter.settled().rooms] == [3]
    assert page.view.accessibleName() == "Wall A, looking at it"


@pytest.mark.parametrize(("kind", "piece"), [("niche", "niche-1"), ("hatch", "hatch-1")])
def test_a_niche_and_an_access_opening_are_added_moved_and_removed(kind: str, piece: str, fitter: Fitter) -> None:
    page = opened(fitter)
    next(each for each in page.tools.adds.menu().actions() if each.data() == kind).trigger()
    fitter.settled()
    assert page.view.piece() == piece
    page.view.setFocus()
    before = thing_of(room(fitter), piece)
    assert before is not None
    key(Qt.Key.Key_Right)
    key(Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    after = thing_of(room(fitter), piece)
    assert after is not None
    assert (after.along.shown, after.up.shown) == (before.along.shown + 1, before.up.shown + 10)
    key(Qt.Key.Key_Delete)
    assert thing_of(room(fitter), piece) is None


def test_pieces_say_where_they_are_and_how_they_move(fitter: Fitter) -> None:
    page = opened(fitter)
    spot = next(each for each in page.view.viewport().children() if each.objectName() == "wc-1")
    said = spot.accessibleDescription()  # type: ignore[attr-defined]  # every spot is a widget
    assert said.startswith("390 millimetres from left wall, 420 above finished floor.")


def test_pans_by_key_and_shows_all_again(fitter: Fitter) -> None:
    page = opened(fitter)
    before = page.view.placed()
    key(Qt.Key.Key_Right, Qt.KeyboardModifier.ControlModifier)
    assert page.view.placed().left < before.left
    QTest.keyClick(page.view, Qt.Key.Key_Home)
    assert page.view.placed() == before


def test_what_is_added_after_a_niche_does_not_land_on_it(fitter: Fitter) -> None:
    page = opened(fitter, "101")
    path = "rooms.0.design"
    fitter.workspace.edit("clear the wall", put(fitter.workspace.job, path, Design()), path)
    fitter.settled()
    for kind in ("niche", "hatch", "wc"):
        page.tools.add_asked.emit(kind)
        fitter.settled()
    shown = room(fitter)
    frame = shown.placed[0]
    taken = [(each.left.value, each.left.value + each.width.value) for each in shown.recesses]
    taken = sorted([*taken, (frame.left, frame.right)])
    assert len(taken) == 3
    assert all(one[1] <= other[0] for one, other in pairwise(taken)), taken


def test_d_with_nothing_chosen_types_the_top_and_the_depth_of_the_prewall(fitter: Fitter) -> None:
    page = opened(fitter)
    key(Qt.Key.Key_D)
    assert page.box.title() == "Top of pre-wall"
    press_digits("1300")
    key(Qt.Key.Key_Return)
    assert room(fitter).top.value == 1300
    assert QApplication.focusWidget() is page.view
    key(Qt.Key.Key_D)
    key(Qt.Key.Key_D)
    assert page.box.title() == "Wall to finished face"
    press_digits("270")
    key(Qt.Key.Key_Return)
    assert room(fitter).figures["finished_face"].value == 270


def test_from_above_a_piece_has_handles_on_its_sides_alone(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Whole room", page)
    tab_to(page, "wc-1")
    drawing, placed = page.view.drawing(), page.view.placed()
    (outline_,) = ware_of(drawing, "wc-1")
    box = outline(outline_, placed).boundingRect()
    top, side = QPointF(box.center().x(), box.top() - 5), QPointF(box.right() + 5, box.center().y())
    assert handle_at(drawing, placed, "wc-1", (top, 24)) == ""
    assert handle_at(drawing, placed, "wc-1", (side, 24)) == "along"


def test_another_job_is_seen_whole_whatever_was_looked_into_before(fitter: Fitter) -> None:
    page = opened(fitter)
    for _ in range(3):
        page.view.zoom(1.25)
    fitter.open("101")
    fitter.settled()
    fitter.page("Alt+2")
    assert page.view.placed().scale == pytest.approx(fitted(page.view.drawing().extent, QRectF(page.view.viewport().rect())).scale)


def test_better_cut_plans_that_come_while_something_is_held_leave_what_was(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    before = fitter.settled()
    with dragging(page, "wc-1", "along", (90, 0), ALT):
        fitter.workspace.estimate_ready.emit(before)
        was, now = next((was, now) for label, was, now in page.moves.rows() if label == "From left wall")
        assert was == "390"
        assert int(now) == pytest.approx(480, abs=2)  # a drag is of whole pixels


def test_what_moves_is_named_whole_over_its_table(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "basin-1")
    key(Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    title = next(each for each in page.moves.findChildren(QLabel) if each.text() == "As you move Basin 1")
    assert title.width() >= QFontMetrics(title.font()).horizontalAdvance(title.text())


def test_a_move_after_which_the_same_is_bought_shows_the_same_price(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    before = fitter.settled()
    with dragging(page, "wc-1", "along", (30, 0), ALT) as end:
        tried = fitter.workspace.shown
        fitter.qtbot.waitUntil(lambda: fitter.workspace.estimate is not None and fitter.workspace.estimate.job is tried, timeout=WAIT_MS)
        rows = {label: (was, now) for label, was, now in page.moves.rows()}
        assert rows["From left wall"][0] != rows["From left wall"][1]
        assert rows["Price"][0] == rows["Price"][1] == show_money(before.price.total)
        mouse(page, QEvent.Type.MouseButtonRelease, end, ALT)
    assert fitter.settled().price.total == before.price.total
