"""What Survey asks of a floor, and how long words stand in its boxes."""

from __future__ import annotations

from PySide6.QtCore import Qt

from tests.desktop.fitter import Fitter
from tests.desktop.hands import key
from tests.desktop.pages.test_survey import box_of, opened, paths
from tundish.desktop.survey_groups import numbers, plain_inputs
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
