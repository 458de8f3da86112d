"""The survey in the real window: every input, usual sizes, words that cannot be used, how a value is known, own ware, the sketch."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QLabel, QMenu, QPushButton, QWidget

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import click, focused, key
from tundish.cutting.sawn import Sawn
from tundish.desktop.boxes import Box
from tundish.desktop.chooser import Chooser
from tundish.desktop.form_heads import GroupHead, Sum
from tundish.desktop.forms import FormRow
from tundish.desktop.pages.survey import SurveyPage
from tundish.desktop.survey_groups import FIRST, GROUPS, plain_inputs
from tundish.documents.drawing import Dimension
from tundish.documents.section_drawing import CHALK
from tundish.estimate import Job
from tundish.field import Entry, describe, fields_of, get
from tundish.figure import Known
from tundish.layout.design import Appliance, PreWall
from tundish.survey.pipes import WasteEntry
from tundish.survey.shape import Photograph
from tundish.survey.survey import Survey
from tundish.survey.wall import Side

CONTROL: Final = Qt.KeyboardModifier.ControlModifier
SURVEY: Final = "rooms.0.survey"
STACK: Final = f"{SURVEY}.stack"
INVERT: Final = f"{STACK}.branch_invert"
FREE: Final = f"{STACK}.room_above"
LISTS: Final = (
    *(("room", f"{SURVEY}.{name}", words) for name, words in
      (("openings", "Add an opening"), ("slopes", "Add a slope or soffit"), ("obstacles", "Add something in the way"))),
    ("wall", f"{SURVEY}.walls", "Add wall B"),
    ("floor", f"{SURVEY}.floor.build_up", "Add a layer"),
    ("stack", f"{SURVEY}.entries", "Add a waste entry"),
    ("electrics", f"{SURVEY}.electrics", "Add something electrical"),
    ("prewall", "rooms.0.design.prewall.niches", "Add a niche"),
    ("prewall", "rooms.0.design.prewall.hatches", "Add an access opening"),
    ("prewall", "rooms.0.design.prewall.noggins", "Add a noggin"),
    ("prewall", "rooms.0.design.further", "Add a pre-wall"),
)  # fmt: skip


def opened(fitter: Fitter, number: str = "102") -> SurveyPage:
    fitter.open(number)
    fitter.settled()
    page = fitter.page("Alt+1")
    assert isinstance(page, SurveyPage)
    return page


def started(fitter: Fitter) -> SurveyPage:
    fitter.page("Alt+0")
    fitter.press("Start a survey")
    fitter.settled()
    page = fitter.window.page("survey")
    assert isinstance(page, SurveyPage)
    return page


def box_of(page: SurveyPage, path: str) -> Box:
    page.go_to(path)
    box = page.form.row(path).box
    assert isinstance(box, Box)
    return box


def entry(fitter: Fitter, path: str) -> Entry:
    found = get(fitter.workspace.job, path)
    assert isinstance(found, Entry)
    return found


def named(fitter: Fitter, page: SurveyPage, words: str) -> QAbstractButton:
    """The first button in sight whose spoken name begins with these words."""

    def seen() -> list[QAbstractButton]:
        return [each for each in page.form.findChildren(QAbstractButton) if each.isVisible() and each.accessibleName().startswith(words)]

    fitter.qtbot.waitUntil(lambda: bool(seen()), timeout=WAIT_MS)
    return seen()[0]


def paths(page: SurveyPage) -> list[str]:
    return [row.path for row in page.form.rows()]


def chalk(page: SurveyPage) -> list[Dimension]:
    drawing = page.sketch.drawing
    return [mark for mark in drawing.marks if isinstance(mark, Dimension) and mark.piece == CHALK] if drawing else []


def shown(column: QWidget) -> str:
    return "\n".join(each.text() for each in column.findChildren(QLabel) if each.isVisible())


def test_a_new_survey_asks_the_ten_boxes_of_a_first_price_and_nothing_else(fitter: Fitter) -> None:
    page = started(fitter)
    asked = paths(page)
    assert [path for path in asked if ".room." in path] == [f"{SURVEY}.room.{name}" for name in ("width", "depth", "height")]
    assert len(asked) <= 10
    assert f"{SURVEY}.floor.kind" in asked
    buttons = {each.text() for each in page.form.findChildren(QPushButton)}
    assert {"Add a layer", "Add WC", "Add Basin"} <= buttons
    assert page.first_box() is page.form.row(f"{SURVEY}.room.width").box


def test_a_survey_with_no_client_yet_is_an_open_job_in_the_job_line(fitter: Fitter) -> None:
    started(fitter)
    line = fitter.window.job_line
    words = [each.text() for each in line.findChildren(QLabel) if each.isVisible()]
    assert "No name yet" in words
    assert "No job open" not in words
    pressed = [each.accessibleName() for each in line.findChildren(QAbstractButton) if each.isVisible()]
    assert {"Nothing to undo", "Print this page (Ctrl+P)"} <= set(pressed)


def test_a_box_with_nothing_to_tell_does_not_leave_the_last_figure_beside_it(fitter: Fitter) -> None:
    page = started(fitter)
    column = fitter.window.where_from
    box_of(page, f"{SURVEY}.stack.from_wall").setFocus()
    fitter.qtbot.waitUntil(lambda: "Centre from the wall" in shown(column), timeout=WAIT_MS)
    box_of(page, f"{SURVEY}.stack.branch_invert").setFocus()
    assert "Centre from the wall" not in shown(column)


@pytest.mark.parametrize("group", [each for each in GROUPS if each.records], ids=lambda each: each.key)
def test_every_declared_input_can_be_reached(group: object, fitter: Fitter) -> None:
    page = opened(fitter)
    job = fitter.workspace.job
    for record in group.records:  # type: ignore[attr-defined]  # one of GROUPS
        held = get(job, f"rooms.0.{record}")
        rows = enumerate(held) if isinstance(held, tuple) else (("", held),)
        for place, each in rows:
            if isinstance(each, Photograph):
                continue
            here = f"rooms.0.{record}" + (f".{place}" if isinstance(held, tuple) else "")
            for name in plain_inputs(each):
                page.go_to(f"{here}.{name}")
                assert page.form.row(f"{here}.{name}").box.isVisible(), f"{here}.{name}"


def test_every_record_of_survey_and_room_is_in_a_group() -> None:
    shown = {record for group in GROUPS for record in group.records}
    for name, declared in fields_of(Survey).items():
        if declared.kind in {"record", "records"}:
            assert f"survey.{name}" in shown
    assert {"design.prewall", "design.further", "design.appliances", "design.finish"} <= shown


@pytest.mark.parametrize(("group", "path", "words"), LISTS, ids=[words for _, _, words in LISTS])
def test_a_row_is_added_with_the_keyboard_in_it_and_taken_out(group: str, path: str, words: str, fitter: Fitter) -> None:
    page = started(fitter)
    page._choose(group)
    fitter.press(words, page)
    assert len(get(fitter.workspace.job, path)) == 1
    assert any(row.box is focused() and row.path.startswith(f"{path}.0.") for row in page.form.rows())
    remove = named(fitter, page, "Take out ")
    click(remove)
    assert get(fitter.workspace.job, path) == ()
    fitter.undo()
    assert len(get(fitter.workspace.job, path)) == 1


def test_more_opens_the_rest_of_a_group_and_fewer_closes_it(fitter: Fitter) -> None:
    page = started(fitter)
    page._choose("stack")
    few = paths(page)
    more = next(each for each in page.form.findChildren(QPushButton) if each.text().startswith("More: "))
    click(more)
    assert FREE in paths(page)
    assert len(paths(page)) == len(few) + int(more.text().split()[1])
    fitter.press("Fewer", page)
    assert paths(page) == few


def test_the_sum_of_the_build_up_is_the_finished_floor(fitter: Fitter) -> None:
    page = opened(fitter)
    page._choose("floor")
    total = next(iter(page.form.findChildren(Sum)))
    assert total.accessibleName() == "Finished floor above bare 26 to 34 mm, to be confirmed"
    fitter.type_into(page.form.row(f"{SURVEY}.floor.build_up.1.thickness"), "5")
    assert total.accessibleName() == "Finished floor above bare 27 to 35 mm, to be confirmed"
    room = fitter.settled().rooms[0]
    assert room.finished_floor.value == 29


def test_a_blank_box_takes_its_usual_size_marked_assumed_by_a_key(fitter: Fitter) -> None:
    page = started(fitter)
    box = box_of(page, f"{STACK}.from_left")
    assert get(fitter.workspace.job, f"{STACK}.from_left") is None
    QTest.keyClick(box, Qt.Key.Key_U, CONTROL)
    taken = entry(fitter, f"{STACK}.from_left")
    assert (taken.value, taken.known) == (describe(Job, f"{STACK}.from_left").usual, Known.ASSUMED)
    assert box.text() == "150"
    assert "Assumed" in box.accessibleDescription()


def test_a_press_on_the_tag_of_a_blank_box_takes_its_usual_size(fitter: Fitter) -> None:
    page = started(fitter)
    row = page.form.row(f"{SURVEY}.room.width")
    row.grab()
    click(row, QPoint(row.width() - 30, row.height() // 2))
    assert entry(fitter, f"{SURVEY}.room.width").known is Known.ASSUMED


def test_a_box_whose_blank_has_a_meaning_is_not_needed(fitter: Fitter) -> None:
    page = started(fitter)
    assert "needed" not in box_of(page, "rooms.0.design.prewall.run").accessibleDescription()
    assert "needed" in box_of(page, INVERT).accessibleDescription()


def test_words_that_cannot_be_used_stay_in_their_box_through_other_changes(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.type_into(page_row(page, INVERT), "about there")
    box = page.form.row(INVERT).box
    assert isinstance(box, Box)
    fitter.type_into(page_row(page, f"{STACK}.from_left"), "700")
    fitter.undo()
    fitter.settled()
    assert box.text() == "about there"
    assert "not a length" in box.accessibleDescription()
    page._choose("room")
    page._choose("stack")
    again = box_of(page, INVERT)
    assert again.text() == "about there"
    assert "not a length" in again.accessibleDescription()
    key(Qt.Key.Key_Escape)
    assert again.text() == "189"
    assert "not a length" not in again.accessibleDescription()


def page_row(page: SurveyPage, path: str) -> FormRow:
    page.go_to(path)
    return page.form.row(path)


@pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
@pytest.mark.parametrize("by", ["key", "mark"])
def test_how_a_value_is_known_can_be_said(by: str, fitter: Fitter) -> None:
    page = opened(fitter)
    box = box_of(page, INVERT)
    row = page.form.row(INVERT)
    if by == "key":
        QTest.keyClick(box, Qt.Key.Key_K, CONTROL)
    else:
        click(row, row.mark_room().center())
    menu = row.findChild(QMenu)
    assert isinstance(menu, QMenu)
    fitter.qtbot.waitUntil(menu.isVisible, timeout=WAIT_MS)
    word = next(each for each in menu.actions() if each.text() == "Client's word")
    menu.setActiveAction(word)
    QTest.keyClick(menu, Qt.Key.Key_Return)
    known = entry(fitter, INVERT)
    assert (known.value, known.known, known.note) == (189, Known.AGREED, "client's word")
    assert box.accessibleDescription().startswith("Agreed")


@pytest.mark.parametrize(
    ("path", "shown", "title"),
    [
        (f"{SURVEY}.room.width", "2,450", "Plan of the room"),
        (f"{SURVEY}.room.height", "2,395", "Wall A, looking at it"),
        (f"{SURVEY}.openings.0.from_left", "720", "Plan of the room"),
        (f"{SURVEY}.openings.0.height", "1,981", "Wall B, looking at it"),
        (f"{STACK}.from_left", "705", "Plan of the room"),
        (INVERT, "189", "Section at the stack, wall A on the left"),
        ("rooms.0.design.appliances.0.centre", "390", "Wall A, looking at it"),
    ],
)
def test_the_sketch_shows_the_box_in_chalk(path: str, shown: str, title: str, fitter: Fitter) -> None:
    page = opened(fitter)
    box_of(page, path)
    assert page.sketch.drawing is not None
    assert page.sketch.drawing.title == title
    assert [mark.text for mark in chalk(page)] == [shown]


def test_the_sketch_follows_what_is_typed(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.type_into(page_row(page, f"{SURVEY}.room.width"), "2600")
    fitter.settled()
    box_of(page, f"{SURVEY}.room.width")
    mark = chalk(page)[0]
    assert mark.text == "2,600"
    assert abs(mark.x2 - mark.x1) == 2600


def test_ware_is_typed_from_its_sheet_and_worked_out_with(fitter: Fitter) -> None:
    page = opened(fitter)
    page._choose("appliances")
    button = named(fitter, page, "Type WC 1 from the maker's sheet")
    click(button)
    ware = get(fitter.workspace.job, "rooms.0.design.appliances.0.ware")
    own = fitter.workspace.job.own_items[0]
    assert ware == own.code
    assert page.form.row("own_items.0.name").box is focused()
    fitter.type_into(page.form.row("own_items.0.name"), "Longhouse pan")
    sizes = {"width": "360", "projection": "540", "stud_spacing": "180", "top_to_studs": "85", "ceramic": "40"}
    sizes |= {"studs_to_outlet": "100", "studs_to_inlet": "35", "outlet_insertion": "40", "inlet_insertion": "50"}
    for place, size in enumerate(own.sizes):
        fitter.type_into(page.form.row(f"own_items.0.sizes.{place}.value"), sizes[size.name])
    placed = fitter.settled().rooms[0].placed[0]
    assert placed.ware.name == "Longhouse pan"
    assert placed.figures["top"].value - placed.figures["studs"].value == 85
    model = page.form.row("rooms.0.design.appliances.0.ware").box
    assert isinstance(model, Chooser)
    assert model.currentText() == "Longhouse pan"
    out = named(fitter, page, "Take out the model typed for WC 1")
    click(out)
    assert fitter.workspace.job.own_items == ()
    assert get(fitter.workspace.job, "rooms.0.design.appliances.0.ware") == ""
    fitter.undo()
    assert len(fitter.workspace.job.own_items) == 1


def test_an_appliance_is_asked_only_what_its_kind_has() -> None:
    assert "seat" in plain_inputs(Appliance(kind="wc"))
    assert not {"seat", "plate", "fed_from"} & set(plain_inputs(Appliance(kind="basin")))
    assert "trap" in plain_inputs(Appliance(kind="basin"))
    assert "setback" not in plain_inputs(PreWall())
    assert "setback" in plain_inputs(PreWall(stands="across its left-hand corner"))
    assert [("floor_thick" in plain_inputs(WasteEntry(under=under))) for under in (False, True)] == [False, True]


def test_a_press_on_a_group_shows_it(fitter: Fitter) -> None:
    page = opened(fitter)
    assert FIRST in {each.key for each in GROUPS}
    page._choose("water")
    assert paths(page)[0].startswith(f"{SURVEY}.water.")


def test_a_room_is_added_gone_on_in_and_taken_out_again(fitter: Fitter) -> None:
    page = started(fitter)
    page._choose("room")
    before = fitter.settled().job
    assert not named(fitter, page, "Take out this room").isEnabled()
    fitter.press("Add a room", page)
    assert [each.name for each in fitter.settled().job.rooms] == ["Bathroom", "Room 2"]
    assert fitter.workspace.room_place == 1
    fitter.workspace.set("rooms.1.survey.room.width", Entry(1700))
    width = next(row for row in page.form.rows() if row.path == "rooms.1.survey.room.width")
    assert isinstance(width.box, Box)
    assert width.box.text() == "1,700"
    fitter.press("Take out this room", page)
    assert fitter.settled().job.rooms == before.rooms
    assert fitter.workspace.room_place == 0
    fitter.undo()
    assert len(fitter.settled().job.rooms) == 2


def test_no_room_is_taken_out_once_something_is_cut(fitter: Fitter) -> None:
    page = started(fitter)
    page._choose("room")
    fitter.press("Add a room", page)
    fitter.workspace.edit("cut", replace(fitter.workspace.job, sawn=(Sawn(item="strut-41x21", mark="U1"),)))
    fitter.workspace.choose_room(0)
    out = named(fitter, page, "Take out this room")
    assert not out.isEnabled()
    assert "cut already" in out.toolTip()


def test_a_wall_is_chosen_of_those_that_the_room_has(fitter: Fitter) -> None:
    page = opened(fitter, "104")
    page.go_to(f"{STACK}.wall")
    box = page.form.row(f"{STACK}.wall").box
    assert isinstance(box, Chooser)
    assert [box.itemText(place) for place in range(box.count())] == list("ABCDEF")
    fitter.workspace.add(f"{SURVEY}.walls", Side(), "add wall G")
    fitter.workspace.set(f"{STACK}.wall", "AB")
    fitter.settled()
    assert [box.itemText(place) for place in range(box.count())] == [*"ABCDEFG", "AB"]
    assert box.currentText() == "AB"


def test_a_ninth_wall_is_added_as_the_eighth_was(fitter: Fitter) -> None:
    page = opened(fitter, "104")
    page.go_to(f"{SURVEY}.walls.0.length")
    for letter in "GHIJ":
        click(named(fitter, page, f"Add wall {letter}"))
    assert len(fitter.workspace.job.rooms[0].survey.walls) == 9
    assert page.form.row(f"{SURVEY}.walls.8.length").box.isVisible()
    fitter.settled()
    assert "Wall J" in {head.title for head in page.form.findChildren(GroupHead)}
