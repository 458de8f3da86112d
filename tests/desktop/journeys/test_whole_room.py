"""A whole room from an empty job: with the mouse, with the keyboard alone, and as it is typed. All end in the same job and price."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QWidget

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import click, focused, key
from tests.desktop.journeys.test_set_out_a_room import choose_by_mouse, drag_to, open_menu
from tests.desktop.journeys.test_survey_by_keyboard import Keyboard
from tests.desktop.pages.test_setting_out import press_digits, tab_to
from tundish import measure
from tundish.catalogue.load import supplied_book
from tundish.cutting.plan import Effort
from tundish.desktop.chips import Chip
from tundish.desktop.chooser import Chooser
from tundish.desktop.moves import things
from tundish.desktop.pages.setting_out import SettingOutPage
from tundish.desktop.pages.survey import SurveyPage
from tundish.documents.drawing import Dimension
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry, put, walk
from tundish.figure import Known
from tundish.layout.design import Appliance, Design, Hatch, Niche, PreWall
from tundish.survey.floor import Layer

SURVEY: Final = "rooms.0.survey"
DESIGN: Final = "rooms.0.design"
FIRST_PRICE: Final = (
    (f"{SURVEY}.room.width", "2400"),
    (f"{SURVEY}.room.depth", "1800"),
    (f"{SURVEY}.room.height", "2380"),
    (f"{SURVEY}.stack.from_left", "210"),
    (f"{SURVEY}.stack.from_wall", "130"),
    (f"{SURVEY}.stack.branch_invert", "170"),
)
FLOOR: Final = 14
"""The layer of the floor."""
LAYER: Final = ((f"{SURVEY}.floor.build_up.0.what", "Tile and adhesive"), (f"{SURVEY}.floor.build_up.0.thickness", f"{FLOOR}"))
WALL: Final = (f"{SURVEY}.wall.construction", "brick")
ADDED: Final = ("WC", "Basin", "Niche", "Access opening")
PLACES: Final = {"wc-1": (500, 430), "basin-1": (1150, 860), "niche-1": (1500, 840), "hatch-1": (1900, 330)}
"""Where each is put: along from the left wall, and up from the finished floor."""
TOP, DEPTH = 1250, 262
"""Top of the pre-wall above the bare floor, as heights are shown at first, and wall to finished face."""
THICK: Final = 24
"""Board, adhesive and tile before the frame front."""


def made_of(fitter: Fitter) -> Job:
    """The job as it was made, without the note of what was typed into its boxes."""
    job = fitter.settled().job
    for path, _, value in walk(job):
        if isinstance(value, Entry) and value.typed:
            job = put(job, path, replace(value, typed=""))
    return job


def inputs_of(job: Job) -> dict[str, object]:
    """Every input of the rooms by its path."""
    return {path: value for path, _, value in walk(job) if path.startswith("rooms.")}


def same(one: Estimate, other: Estimate) -> None:
    """The same figures, amounts and price."""
    for mine, theirs in zip(one.rooms, other.rooms, strict=True):
        assert {name: each.value for name, each in mine.figures.items()} == {name: each.value for name, each in theirs.figures.items()}
    assert [(each.item.code, each.amount.value) for each in one.lines] == [(each.item.code, each.amount.value) for each in other.lines]
    assert one.price == other.price


def typed_directly(job: Job) -> Job:
    """The job as it was begun, with every input of the room given to it straight."""
    for path, value in FIRST_PRICE:
        job = put(job, path, Entry(float(value), Known.MEASURED))
    layer = Layer(what="Tile and adhesive", thickness=Entry(FLOOR, Known.MEASURED))
    job = put(put(job, f"{SURVEY}.floor.build_up", (layer,)), *WALL)
    at = {piece: tuple(Entry(float(each), Known.AGREED) for each in place) for piece, place in PLACES.items()}
    wc = Appliance(kind="wc", name="WC 1", ware="pan-ondel-530", frame="frame-wc-1120", seat="seat-ondel-plain", plate="plate-round-white")
    basin = Appliance(kind="basin", name="Basin 1", ware="basin-fethan-500", frame="frame-basin-1120", tap="tap-mixer-lever")
    wc, basin = (replace(each, centre=at[key][0], top=at[key][1]) for each, key in ((wc, "wc-1"), (basin, "basin-1")))
    prewall = PreWall(
        top=Entry(TOP - FLOOR, Known.AGREED),
        depth=Entry(DEPTH - THICK, Known.AGREED),
        niches=(Niche(from_left=at["niche-1"][0], bottom=at["niche-1"][1]),),
        hatches=(Hatch(item="panel-tiled-300", from_left=at["hatch-1"][0], bottom=at["hatch-1"][1]),),
    )
    return put(job, DESIGN, replace(Design(), prewall=prewall, appliances=(wc, basin)))


def press_dimension(page: SettingOutPage, figure: str, words: str) -> None:
    """A figure of the drawing is pressed and typed over."""
    mark = next(each for each in page.view.drawing().marks if isinstance(each, Dimension) and each.figure == figure)
    at = page.view.placed().point((mark.x1 + mark.x2) / 2, (mark.y1 + mark.y2) / 2)
    click(page.view.viewport(), at.toPoint())
    assert page.box.isVisible(), figure
    press_digits(words)
    key(Qt.Key.Key_Return)
    assert not page.box.isVisible(), page.box.title()


def window_again(fitter: Fitter) -> None:
    """Without a window manager a menu or a list that closes gives the keyboard to nobody."""
    with fitter.qtbot.waitActive(fitter.window):
        fitter.window.activateWindow()


def choose_in_list(fitter: Fitter, box: Chooser, words: str) -> None:
    """In a list that a press opened: down or up to the words, and Enter."""
    shown = box.view()
    fitter.qtbot.waitUntil(shown.isVisible, timeout=WAIT_MS)
    wanted = box.findText(words)
    while (now := shown.currentIndex().row()) != wanted:
        QTest.keyClick(shown, Qt.Key.Key_Down if wanted > now else Qt.Key.Key_Up)
    QTest.keyClick(shown, Qt.Key.Key_Return)
    fitter.qtbot.waitUntil(lambda: not shown.isVisible(), timeout=WAIT_MS)


def survey_by_mouse(fitter: Fitter) -> None:
    """Every box is pressed and typed into; groups and buttons are pressed."""
    page = fitter.window.page("survey")
    assert isinstance(page, SurveyPage)

    def fill(path: str, words: str) -> None:
        row = next(each for each in page.form.rows() if each.path == path)
        page.form.ensureWidgetVisible(row)
        click(row.box)
        if isinstance(row.box, Chooser):
            choose_in_list(fitter, row.box, words)
            window_again(fitter)
        else:
            fitter.type_into(row, words)

    for path, words in FIRST_PRICE:
        fill(path, words)
    fitter.press("Add a layer")
    for path, words in LAYER:
        fill(path, words)
    click(next(each for each in page.findChildren(Chip) if each.choice.text == "Walls"))
    fill(*WALL)


def survey_by_keys(fitter: Fitter) -> None:
    """The same by Tab, arrows and typing."""
    page = fitter.window.page("survey")
    assert isinstance(page, SurveyPage)
    fitter.qtbot.waitUntil(lambda: QApplication.focusWidget() in page.findChildren(QWidget), timeout=WAIT_MS)
    keyboard = Keyboard(page)
    for path, words in FIRST_PRICE:
        keyboard.fill(path, words)
    keyboard.press("Add a layer")
    for path, words in LAYER:
        keyboard.fill(path, words)
    keyboard.group("Walls")
    keyboard.fill(*WALL)


def setting_out(fitter: Fitter) -> SettingOutPage:
    page = fitter.page("Alt+2")
    assert isinstance(page, SettingOutPage)
    fitter.settled()
    return page


def now_at(fitter: Fitter, piece: str) -> tuple[float, float]:
    """Where a piece is: along from the left wall, up from the finished floor."""
    room = fitter.settled().rooms[0]
    thing = next(each for each in things(room) if each.key == piece)
    return thing.along.shown, thing.up.shown


def put_by_mouse(fitter: Fitter, page: SettingOutPage) -> None:
    """Added from the menu, dragged along and up by their handles; depth and top are pressed and typed."""
    for words in ADDED:
        choose_by_mouse(page, fitter, words)
        window_again(fitter)
    page.view.zoom(2.0)
    for piece, wanted in PLACES.items():
        for axis, place in (("along", 0), ("up", 1)):
            click(page.view.viewport(), page.view.box_of(piece).center().toPoint())
            assert page.view.piece() == piece
            if now_at(fitter, piece)[place] != wanted[place]:
                drag_to(page, piece, axis, wanted[place], now_at(fitter, piece)[place])
    page.view.fit()
    press_dimension(page, "finished_face", f"{DEPTH}")
    press_dimension(page, "top_of_prewall", f"{TOP}")


def choose_by_keys(page: SettingOutPage, fitter: Fitter, words: str) -> None:
    """Ins, then down to the words, then Enter."""
    key(Qt.Key.Key_Insert)
    menu = open_menu(page, fitter)
    for _ in menu.actions():
        if menu.activeAction().text() == words:
            break
        QTest.keyClick(menu, Qt.Key.Key_Down)
    QTest.keyClick(menu, Qt.Key.Key_Return)
    fitter.settled()
    window_again(fitter)
    fitter.qtbot.waitUntil(lambda: QApplication.focusWidget() is page.view, timeout=WAIT_MS)


def put_by_keys(fitter: Fitter, page: SettingOutPage) -> None:
    """Ins and the menu; Tab to each, its place typed, its height by arrows or typed after D; D with nothing chosen for the pre-wall."""
    fitter.qtbot.waitUntil(lambda: QApplication.focusWidget() is page.view, timeout=WAIT_MS)
    for words in ADDED:
        choose_by_keys(page, fitter, words)
    for piece, (along, up) in PLACES.items():
        key(Qt.Key.Key_Escape)
        tab_to(page, piece)
        press_digits(f"{along}")
        key(Qt.Key.Key_Return)
        if piece == "wc-1":
            nudge(fitter, piece, up)
        else:
            key(Qt.Key.Key_D)
            press_digits(f"{up}")
            key(Qt.Key.Key_Return)
        assert now_at(fitter, piece) == (along, up)
    key(Qt.Key.Key_Escape)
    key(Qt.Key.Key_D)
    assert page.box.title() == "Top of pre-wall"
    press_digits(f"{TOP}")
    key(Qt.Key.Key_Return)
    key(Qt.Key.Key_D)
    key(Qt.Key.Key_D)
    assert page.box.title() == "Wall to finished face"
    press_digits(f"{DEPTH}")
    key(Qt.Key.Key_Return)


def nudge(fitter: Fitter, piece: str, up: float) -> None:
    """Arrows up or down to a height: tens with Shift, then ones."""
    far = round(up - now_at(fitter, piece)[1])
    arrow = Qt.Key.Key_Up if far > 0 else Qt.Key.Key_Down
    for _ in range(abs(far) // 10):
        key(arrow, Qt.KeyboardModifier.ShiftModifier)
    for _ in range(abs(far) % 10):
        key(arrow)


def begin_by_keys(fitter: Fitter) -> None:
    """To the button by Tab, and Enter."""
    fitter.page("Alt+0")
    for _ in range(100):
        if isinstance(focused(), QPushButton) and focused().accessibleName() == "Start a survey":
            break
        key(Qt.Key.Key_Tab)
    key(Qt.Key.Key_Return)


@pytest.mark.qt_log_ignore("This plugin does not support (raise|grabbing the keyboard)")  # a menu opened without a screen
def test_a_room_drawn_with_the_mouse_and_one_by_keys_alone_are_the_job_as_typed(fitter: Fitter) -> None:
    fitter.page("Alt+0")
    fitter.press("Start a survey")
    begun = fitter.settled().job
    survey_by_mouse(fitter)
    put_by_mouse(fitter, setting_out(fitter))
    by_mouse = made_of(fitter)
    begin_by_keys(fitter)
    fitter.qtbot.waitUntil(lambda: fitter.workspace.job.number != by_mouse.number, timeout=WAIT_MS)
    fitter.settled()
    survey_by_keys(fitter)
    put_by_keys(fitter, setting_out(fitter))
    by_keys = made_of(fitter)
    straight = typed_directly(begun)
    assert inputs_of(by_mouse) == inputs_of(straight)
    assert inputs_of(by_keys) == inputs_of(straight)
    book = supplied_book()
    expected, mouse, keys = (estimate(each, book, Effort.BEST) for each in (straight, by_mouse, by_keys))
    for one in (mouse, keys):
        same(one, expected)
    assert measure.show_money(expected.price.total) in fitter.price()
    assert expected.price.total > 0
