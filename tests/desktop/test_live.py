"""What is seen at once, before the estimate is there."""

from __future__ import annotations

import gc

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from tests.desktop.fitter import Fitter
from tests.desktop.journeys.conftest import fitter
from tests.desktop.pages.test_moving import dragging
from tests.desktop.pages.test_setting_out import opened, tab_to
from tundish.desktop.live import at_once, sight_of
from tundish.field import Entry, put
from tundish.layout.undecided import chosen

__all__ = ["fitter"]

TOP = "rooms.0.design.appliances.0.top"


def test_what_open_choices_leave_to_be_confirmed_is_never_seen_as_final_meanwhile(fitter: Fitter) -> None:
    fitter.open("101")
    plan = chosen(fitter.workspace.job.rooms[0], "design.finish.tile", ("tile-600x300-grey", "tile-200x100-white", ""))
    fitter.workspace.edit("leave the tile open", put(fitter.workspace.job, "rooms", (plan,)))
    room = fitter.settled().rooms[0]
    open_ = {name for name, figure in room.figures.items() if figure.tbc}
    fitter.workspace.set(TOP, Entry(415.0))
    quick = at_once(fitter.workspace.job.rooms[0], fitter.workspace.book, "rooms.0").rooms[0]
    assert open_ - {name for name, figure in quick.figures.items() if figure.tbc}, "the first alternatives alone would look settled"
    seen = sight_of(fitter.workspace)
    assert seen is not None
    assert open_ <= {name for name, figure in seen.rooms[0].figures.items() if figure.tbc}
    assert seen.rooms[0].thickness.tbc
    assert fitter.settled().rooms[0].figures["finished_face"].low < room.figures["finished_face"].high


def test_without_open_choices_what_is_seen_at_once_is_what_comes(fitter: Fitter) -> None:
    fitter.open("101")
    fitter.settled()
    fitter.workspace.set(TOP, Entry(415.0))
    seen = sight_of(fitter.workspace)
    assert seen is not None
    assert seen.rooms[0].figures == fitter.settled().rooms[0].figures


def test_nobody_looks_for_garbage_while_something_is_held_and_where_from_is_right_at_rest(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    assert gc.isenabled()
    with dragging(page, "wc-1", "along", (60, 0)):
        assert not gc.isenabled()
        QTest.keyClick(page.view, Qt.Key.Key_Escape)
        assert gc.isenabled()
    with dragging(page, "wc-1", "along", (60, 0)):
        assert fitter.workspace.trying
    fitter.settled()
    assert gc.isenabled()
    centre = fitter.workspace.job.rooms[0].design.appliances[0].centre
    assert isinstance(centre, Entry)
    said = " ".join(each.accessibleName() for each in fitter.window.where_from.findChildren(QWidget))
    assert f"{centre.value:g}" in said
