"""What Survey asks of a floor, and how long words stand in its boxes."""

from __future__ import annotations

from itertools import combinations

import pytest
from PySide6.QtCore import Qt

from tests.desktop.fitter import Fitter
from tests.desktop.hands import click, key
from tests.desktop.pages.test_survey import box_of, named, opened, paths
from tundish.desktop.canvas.painting import words_room
from tundish.desktop.survey_groups import numbers, plain_inputs
from tundish.documents.clear_words import overlap
from tundish.documents.drawing import Dimension, Words
from tundish.figure import Known
from tundish.survey.floor import ON_JOISTS, Floor

FLOOR = "rooms.0.survey.floor"


def test_joists_are_asked_of_a_floor_on_joists_alone(fitter: Fitter) -> None:
    page = opened(fitter, "104")
    page.go_to(f"{FLOOR}.kind")
    assert f"{FLOOR}.joist_centres" not in paths(page)
    assert all(each is not None for each in numbers(fitter.workspace.job.rooms[0], "floor"))
    fitter.workspace.set(f"{FLOOR}.kind", ON_JOISTS[0])
    assert f"{FLOOR}.joist_centres" in paths(page)
    assert None in numbers(fitter.workspace.job.rooms[0], "floor")
    assert {"joist_centres", "joists_run"} <= set(plain_inputs(Floor(kind=ON_JOISTS[0])))


def test_words_that_are_too_long_are_read_from_their_beginning(fitter: Fitter) -> None:
    page = opened(fitter, "104")
    page.go_to(f"{FLOOR}.build_up.0.what")
    box = box_of(page, f"{FLOOR}.build_up.0.what")
    key(Qt.Key.Key_End)
    key(Qt.Key.Key_Tab)
    assert box.cursorPosition() == 0
    fitter.workspace.set(f"{FLOOR}.build_up.0.what", "Self-levelling compound, two pours, at the highest place of the room")
    assert (box.cursorPosition(), box.text()[:4]) == (0, "Self")


@pytest.mark.parametrize("number", ["101", "102", "104"])
def test_no_words_of_the_sketch_lie_on_others(number: str, fitter: Fitter) -> None:
    page = opened(fitter, number)
    page.go_to("rooms.0.survey.stack.pipe")
    seen = page.sketch.seen()
    assert seen is not None
    drawing, placed = seen
    written = [mark for mark in drawing.marks if isinstance(mark, Words | Dimension) and mark.text]
    assert {"A", "B"} <= {mark.text for mark in written}
    for one, other in combinations(written, 2):
        shared = overlap(words_room(one, placed.scale), words_room(other, placed.scale)) * placed.scale**2
        assert shared < 2, (one.text, other.text)


def test_ware_that_is_being_typed_hangs_with_the_sizes_of_the_last_assumed(fitter: Fitter) -> None:
    page = opened(fitter)
    page.go_to("rooms.0.design.appliances.0.ware")
    before = fitter.settled().rooms[0].placed[0].ware
    click(named(fitter, page, "Type WC 1 from the maker's sheet"))
    own = fitter.workspace.job.own_items[0]
    assert all(each.value is not None and each.value.known is Known.ASSUMED for each in own.sizes)
    placed = fitter.settled().rooms[0].placed[0]
    assert (placed.name, placed.ware.size("width").value) == ("WC 1", before.size("width").value)
    assert placed.figures["studs"].tbc
    place = next(n for n, each in enumerate(own.sizes) if each.name == "width")
    fitter.type_into(page.form.row(f"own_items.0.sizes.{place}.value"), "371")
    typed = fitter.workspace.job.own_items[0].sizes[place].value
    assert typed is not None
    assert (typed.value, typed.known, typed.note) == (371, Known.MAKER, "")


def test_ware_typed_for_an_appliance_without_a_model_asks_every_size(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.workspace.set("rooms.0.design.appliances.0.ware", "")
    page.go_to("rooms.0.design.appliances.0.name")
    click(named(fitter, page, "Type WC 1 from the maker's sheet"))
    assert {each.value for each in fitter.workspace.job.own_items[0].sizes} == {None}
