"""Setting out: pieces chosen, moved, typed, added and removed on the wall; the Rod from both floors."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QWidget

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import click, focused, key
from tests.desktop.spoken_names import nameless
from tundish.catalogue.own import OwnItem, OwnSize
from tundish.desktop.moves import thing_of
from tundish.desktop.pages.setting_out import SettingOutPage
from tundish.desktop.receipt_rows import LineRow
from tundish.desktop.rod_view import Row, spread
from tundish.desktop.snapping import pulls_along
from tundish.documents.drawing import Box, Dimension, Shape, Words
from tundish.documents.wall_sheet import EMPTY
from tundish.field import Entry, get, put
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Room

CENTRE = "rooms.0.design.appliances.0.centre"
TOP = "rooms.0.design.appliances.0.top"


def opened(fitter: Fitter, number: str = "102") -> SettingOutPage:
    fitter.open(number)
    fitter.settled()
    page = fitter.page("Alt+2")
    assert isinstance(page, SettingOutPage)
    page.view.setFocus()
    return page


def tab_to(page: SettingOutPage, piece: str) -> None:
    for _ in range(len(page.view.drawing().pieces)):
        if page.view.piece() == piece:
            return
        key(Qt.Key.Key_Tab)
    assert page.view.piece() == piece


def press_digits(digits: str) -> None:
    for digit in digits:
        QTest.keyClicks(focused(), digit)


def room(fitter: Fitter) -> Room:
    return fitter.settled().rooms[0]


def value(fitter: Fitter, path: str) -> float:
    return float(get(fitter.workspace.job, path).value)


def steps(fitter: Fitter) -> int:
    assert fitter.workspace.session is not None
    return len(fitter.workspace.session.done)


def words(page: SettingOutPage) -> list[str]:
    return [mark.text for mark in page.view.drawing().marks if isinstance(mark, Words | Dimension)]


def said(part: QWidget) -> list[str]:
    return [each.text() for each in part.findChildren(QLabel) if each.isVisible()]


def rod_row(page: SettingOutPage, label: str) -> Row:
    return next(row for row in page.rod.rows() if row.height_shown is not None and row.height_shown.label == label)


def test_tab_chooses_a_piece_and_tells_where_it_is_from(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    fitter.qtbot.waitUntil(lambda: "WC 1 from left wall" in said(fitter.window.where_from))


def test_digits_move_a_piece_and_undo_puts_it_back(fitter: Fitter) -> None:
    page = opened(fitter)
    before = value(fitter, CENTRE)
    tab_to(page, "wc-1")
    press_digits("1180")
    assert page.box.isVisible()
    assert page.box.title() == "WC 1 from left wall"
    key(Qt.Key.Key_Return)
    assert not page.box.isVisible()
    assert focused() is page.view
    assert next(each for each in room(fitter).placed if each.key == "wc-1").centre.value == 1180
    fitter.undo()
    assert value(fitter, CENTRE) == before
    assert next(each for each in room(fitter).placed if each.key == "wc-1").centre.value == before


def test_escape_leaves_the_piece_where_it_was(fitter: Fitter) -> None:
    page = opened(fitter)
    before, done = value(fitter, CENTRE), steps(fitter)
    tab_to(page, "wc-1")
    press_digits("77")
    key(Qt.Key.Key_Escape)
    assert not page.box.isVisible()
    assert (value(fitter, CENTRE), steps(fitter)) == (before, done)


def test_d_steps_to_the_height_above_the_finished_floor(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    press_digits("4")
    key(Qt.Key.Key_D)
    assert page.box.title() == "WC 1, top above finished floor"
    press_digits("30")
    key(Qt.Key.Key_Return)
    assert value(fitter, TOP) == 430
    assert room(fitter).figures["wc-1.top"].value == 430 + room(fitter).finished_floor.value


def test_a_gap_that_is_typed_is_the_gap_there_is(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    key(Qt.Key.Key_D)
    key(Qt.Key.Key_D)
    assert page.box.title() == "WC 1, gap to Bidet 1"
    press_digits("250")
    key(Qt.Key.Key_Return)
    wc, bidet = room(fitter).placed[:2]
    half = (wc.ware.size("width").value + bidet.ware.size("width").value) / 2
    assert bidet.centre.value - wc.centre.value - half == 250


def test_what_is_no_length_is_kept_for_mending_and_sets_nothing(fitter: Fitter) -> None:
    page = opened(fitter)
    before = value(fitter, CENTRE)
    tab_to(page, "wc-1")
    press_digits("1x")
    key(Qt.Key.Key_Return)
    assert page.box.isVisible()
    assert page.box.box.text() == "1x"
    assert value(fitter, CENTRE) == before


def test_a_run_of_arrows_is_one_step(fitter: Fitter) -> None:
    page = opened(fitter)
    before, done = value(fitter, CENTRE), steps(fitter)
    tab_to(page, "wc-1")
    for _ in range(3):
        key(Qt.Key.Key_Right)
    key(Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert (value(fitter, CENTRE), steps(fitter)) == (before + 13, done + 1)
    fitter.undo()
    assert value(fitter, CENTRE) == before


def test_arrows_up_raise_the_top_and_every_height_with_it(fitter: Fitter) -> None:
    page = opened(fitter)
    before = room(fitter).figures["wc-1.studs"].value
    tab_to(page, "wc-1")
    key(Qt.Key.Key_Up)
    key(Qt.Key.Key_Up)
    assert room(fitter).figures["wc-1.studs"].value == before + 2


def test_as_you_move_tells_was_and_now_until_it_is_undone(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    assert page.moves.rows() == []
    key(Qt.Key.Key_Right)
    fitter.settled()
    rows = {label: (was, now) for label, was, now in page.moves.rows()}
    assert rows["From left wall"] == ("390", "391")
    assert rows["Gap to Bidet 1"] == ("270", "269")
    assert rows["Soil pipe"] == ("315", "314")
    fitter.undo()
    # The price is the same again once the best cut plans have come too.
    fitter.qtbot.waitUntil(lambda: page.moves.rows() == [], timeout=WAIT_MS)


def test_steel_follows_and_says_so(fitter: Fitter) -> None:
    page = opened(fitter)
    done = steps(fitter)
    tab_to(page, "U1")
    with fitter.qtbot.waitSignal(fitter.workspace.said) as told:
        key(Qt.Key.Key_Right)
    assert "move an appliance" in told.args[0]
    assert steps(fitter) == done


def test_dragging_along_the_plan_drops_on_ten_or_where_it_was_pulled_and_keeps_the_height(fitter: Fitter) -> None:
    page = opened(fitter)
    before, done = value(fitter, TOP), steps(fitter)
    tab_to(page, "wc-1")
    view = page.view
    ware = [mark for mark in view.drawing().marks if getattr(mark, "piece", "") == "wc-1" and hasattr(mark, "points")][-1]
    xs, ys = [x for x, _ in ware.points], [y for _, y in ware.points]
    start = view.placed().point(min(xs) + 20, (min(ys) + max(ys)) / 2).toPoint()
    end = start + view.placed().point(203, 240).toPoint() - view.placed().point(0, 0).toPoint()
    QTest.mousePress(view.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    QTest.mouseMove(view.viewport(), end)
    QTest.mouseRelease(view.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, end)
    grown = value(fitter, CENTRE)
    thing = thing_of(room(fitter), "wc-1")
    assert thing is not None
    pulls = {round(pull.value, 3) for pull in pulls_along(room(fitter), thing, fitter.workspace.book)}
    assert grown % 10 == 0 or round(grown, 3) in pulls
    assert grown > 390
    assert (value(fitter, TOP), steps(fitter)) == (before, done + 1)


def test_the_rod_shows_every_height_from_both_floors(fitter: Fitter) -> None:
    page = opened(fitter)
    found = rod_row(page, "Fixing studs").height_shown
    figures = room(fitter).figures
    assert found is not None
    assert found.bare == figures["wc-1.studs"].value
    assert found.finish == found.bare - figures["finished_floor"].value
    assert "353 millimetres above bare floor, 325 above finished floor. To be confirmed." in rod_row(page, "Fixing studs").accessibleName()


def test_no_two_rows_of_the_rod_overlap(fitter: Fitter) -> None:
    page = opened(fitter)
    rows = page.rod.rows()
    assert len(rows) > 10
    assert all(not one.geometry().intersects(other.geometry()) for one, other in pairwise(rows))
    assert all(page.rod.rect().contains(row.geometry()) for row in rows)


def test_a_row_of_the_rod_tells_where_it_is_from_and_chooses_its_piece(fitter: Fitter) -> None:
    page = opened(fitter)
    click(rod_row(page, "Outlet"))
    assert page.view.piece() == "wc-1"
    fitter.qtbot.waitUntil(lambda: room(fitter).figures["wc-1.outlet"].label in said(fitter.window.where_from))


def test_the_other_floor_is_written_on_the_drawing(fitter: Fitter) -> None:
    page = opened(fitter)
    assert "datum 1,028" in words(page)
    fitter.workspace.choose_floor("finish")
    assert "datum 1,000" in words(page)
    assert "datum 1,028" not in words(page)


@pytest.mark.parametrize(("layer", "gone"), [("steel", "U1"), ("pipes", "wc-1.soil"), ("ware", "wc-1")])
def test_a_hidden_layer_leaves_the_drawing(fitter: Fitter, layer: str, gone: str) -> None:
    page = opened(fitter)
    action = next(each for each in page.tools.layers.menu().actions() if each.data() == layer)
    assert gone in dict(page.view.drawing().pieces)
    action.trigger()
    assert gone not in dict(page.view.drawing().pieces)
    assert gone not in {mark.piece for mark in page.view.drawing().marks if isinstance(mark, Box | Shape)}
    action.trigger()
    assert gone in dict(page.view.drawing().pieces)


def test_an_appliance_is_added_where_there_is_room_and_taken_out_again(fitter: Fitter) -> None:
    page = opened(fitter, "101")
    tab_to(page, "basin-1")
    key(Qt.Key.Key_Delete)
    assert [each.key for each in room(fitter).placed] == ["wc-1"]
    next(each for each in page.tools.adds.menu().actions() if each.data() == "basin").trigger()
    wc, basin = room(fitter).placed
    assert wc.right <= basin.left
    assert basin.centre.tbc
    assert page.view.piece() == basin.key
    fitter.undo()
    fitter.undo()
    assert [each.name for each in room(fitter).placed] == ["WC 1", "Basin 1"]


def emptied(fitter: Fitter, page: SettingOutPage) -> None:
    for piece in ("wc-1", "basin-1"):
        tab_to(page, piece)
        key(Qt.Key.Key_Delete)
        fitter.settled()


def add(page: SettingOutPage, what: str) -> None:
    next(each for each in page.tools.adds.menu().actions() if each.data() == what).trigger()


def test_what_is_added_is_the_usual_one_and_then_as_the_last(fitter: Fitter) -> None:
    page = opened(fitter, "101")
    emptied(fitter, page)
    add(page, "wc")
    (wc,) = room(fitter).placed
    choice = get(fitter.workspace.job, wc.path)
    assert (choice.ware, choice.frame) == ("pan-ondel-530", "frame-wc-1120")
    assert (choice.seat, choice.plate) == ("seat-ondel-plain", "plate-round-white")
    fitter.workspace.set(f"{wc.path}.frame", "frame-wc-narrow")
    add(page, "wc")
    assert get(fitter.workspace.job, room(fitter).placed[-1].path).frame == "frame-wc-narrow"


def test_beneath_a_low_top_a_low_frame_is_added(fitter: Fitter) -> None:
    page = opened(fitter, "101")
    emptied(fitter, page)
    fitter.workspace.set("rooms.0.design.prewall.top", Entry(1000))
    fitter.settled()
    add(page, "wc")
    (wc,) = room(fitter).placed
    assert get(fitter.workspace.job, wc.path).frame == "frame-wc-820"


def test_what_is_added_at_once_after_another_stands_beside_it(fitter: Fitter) -> None:
    page = opened(fitter, "101")
    emptied(fitter, page)
    for what in ("wc", "basin"):
        add(page, what)  # nothing is waited for: the wall that is drawn does not know of the first yet
    wc, basin = room(fitter).placed
    assert wc.right <= basin.left


def test_an_empty_wall_says_how_to_begin(fitter: Fitter) -> None:
    page = opened(fitter, "101")
    emptied(fitter, page)
    assert EMPTY in words(page)


def test_a_missed_gap_is_written_on_the_wall(fitter: Fitter) -> None:
    page = opened(fitter)
    assert "10 short" in words(page)
    tab_to(page, "wc-1")
    key(Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    fitter.settled()
    assert not [each for each in words(page) if each.endswith("short")]


def test_whole_room_shows_the_door_and_back(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Whole room", page)
    assert "door" in words(page)
    assert not page.rod.isVisible()
    fitter.press("Whole room", page)
    assert "door" not in words(page)
    assert page.rod.isVisible()


def test_every_control_has_a_name(fitter: Fitter) -> None:
    page = opened(fitter)
    assert nameless(page) == []


@given(wanted=st.lists(st.floats(0, 400), min_size=1, max_size=20).map(sorted))
def test_labels_spread_keep_their_order_their_pitch_and_their_bounds(wanted: Sequence[float]) -> None:
    placed = spread(wanted, 19, 0, 400)
    assert all(after - before >= 19 - 1e-6 for before, after in pairwise(placed))
    assert placed[0] >= -1e-6
    assert placed[-1] <= 400 + 1e-6
    if all(after - before >= 19 for before, after in pairwise(wanted)):
        assert placed == pytest.approx(wanted), "nothing is moved without need"


def test_how_the_frame_is_set_stands_beside_the_wall_and_each_figure_opens(fitter: Fitter) -> None:
    page = opened(fitter)
    assert not page.frame.rows()
    tab_to(page, "wc-1")
    shown = {row.label: row.amount for row in page.frame.rows()}
    assert (shown["Studs apart"], shown["Stud slider, below the mark"]) == ("180", "675")
    assert nameless(page.frame) == []
    slider = next(row for row in page.frame.findChildren(LineRow) if row.shown.label.startswith("Stud slider"))
    click(slider)
    fitter.qtbot.waitUntil(lambda: "Stud slider below the frame's mark, WC 1" in said(fitter.window.where_from))
    page.view.setFocus()
    key(Qt.Key.Key_Up)
    fitter.qtbot.waitUntil(lambda: bool(page.moves.rows()))
    assert not page.frame.rows()  # what moves is told in its place


def test_as_many_settings_are_shown_as_there_is_room_for_beneath_the_rod(fitter: Fitter) -> None:
    page = opened(fitter)
    placed = room(fitter).placed[0]
    page.frame.show_frame(placed, 1000)
    every = len(page.frame.rows())
    page.frame.show_frame(placed, 27 * 3)
    assert len(page.frame.rows()) == 2 < every
    page.frame.show_frame(placed, 0)
    assert not page.frame.rows()


def test_several_added_before_the_estimate_is_ready_stand_beside_one_another(fitter: Fitter) -> None:
    page = opened(fitter, "101")
    fitter.workspace.set("rooms.0.survey.room.width", Entry(6_000))
    before = {each.key for each in room(fitter).placed}
    page._add_one("wc")
    page._add_one("bidet")
    page._add_one("niche")
    worked = room(fitter)
    spans = sorted((each.left, each.right) for each in worked.placed)
    spans += [(each.left.value, each.left.value + each.width.value) for each in worked.recesses]
    assert len({each.key for each in worked.placed} - before) == 2
    assert all(one[1] <= other[0] for one, other in pairwise(sorted(spans)))


def test_what_is_added_is_as_the_others_of_the_job(fitter: Fitter) -> None:
    page = opened(fitter, "102")
    first = get(fitter.workspace.job, "rooms.0.design.appliances.0")
    page._add_one("wc")
    added = get(fitter.workspace.job, "rooms.0.design.appliances")[-1]
    assert (added.ware, added.seat, added.plate) == (first.ware, first.seat, first.plate)


def test_ware_typed_for_the_job_stays_on_the_wall_while_it_is_moved(fitter: Fitter) -> None:
    page, workspace = opened(fitter, "102"), fitter.workspace
    pan = workspace.book.items[get(workspace.job, "rooms.0.design.appliances.0.ware")]
    sizes = tuple(OwnSize(name=name, value=Entry(size)) for name, (size, _) in pan.sizes.items() if name in KINDS["wc"].all_ware_sizes)
    job = replace(workspace.job, own_items=(OwnItem(code="own-1", kind="wc pan", name="Old pan", sizes=sizes),))
    workspace.edit("type it", put(job, "rooms.0.design.appliances.0.ware", "own-1"), "")
    room(fitter)
    workspace.try_out(put(workspace.job, CENTRE, replace(get(workspace.job, CENTRE), value=400)))
    now = page.room()
    assert now is not None
    assert "wc-1" in {each.key for each in now.placed}
    workspace.end_trial()


def test_a_towel_rail_support_is_added_moved_by_keys_counted_and_taken_out(fitter: Fitter) -> None:
    page = opened(fitter, "104")
    before = strut(fitter)
    add(page, "towel rail")
    backed = room(fitter).backed[0]
    assert (backed.name, page.view.piece()) == ("Towel rail", backed.key)
    assert backed.left.tbc
    assert strut(fitter) > before
    at = backed.left.value
    key(Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert room(fitter).backed[0].left.value == at + 10
    key(Qt.Key.Key_D)
    press_digits("1100")
    key(Qt.Key.Key_Return)
    assert room(fitter).backed[0].level.value == room(fitter).finished_floor.value + 1100
    key(Qt.Key.Key_Delete)
    assert not room(fitter).backed
    assert strut(fitter) == before
    fitter.undo()
    assert room(fitter).backed[0].name == "Towel rail"


def strut(fitter: Fitter) -> float:
    return next(each.amount.value for each in fitter.settled().lines if each.item.code == "strut-41x21")
