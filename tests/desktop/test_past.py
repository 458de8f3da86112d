"""What was done to a job before it was opened can be undone, and undoing says where it acted."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from tests.desktop.fitter import Fitter
from tests.desktop.hands import key
from tests.desktop.journeys.conftest import fitter
from tests.desktop.pages.test_setting_out import CENTRE, opened, tab_to, value
from tundish import session
from tundish.desktop import past
from tundish.desktop.past import where
from tundish.estimate import Job
from tundish.field import get
from tundish.session import Step
from tundish.store import history

__all__ = ["fitter"]
WIDTH, RATE = "rooms.0.survey.room.width", "terms.labour_rate"


def again(fitter: Fitter) -> None:
    """The job is closed, and opened again from the list."""
    number = fitter.workspace.job.number
    fitter.workspace.close_job()
    fitter.open(number)


def test_the_steps_of_a_job_are_undone_after_it_was_opened_again(fitter: Fitter) -> None:
    page = opened(fitter)
    first = value(fitter, CENTRE)
    tab_to(page, "wc-1")
    for _ in range(3):
        key(Qt.Key.Key_Right)
    fitter.workspace.set(WIDTH, 2460)
    again(fitter)
    assert fitter.workspace.undo_label == "set Width along wall A"
    fitter.undo()
    assert get(fitter.workspace.job, WIDTH).value == 2450
    assert fitter.workspace.undo_label == "move WC 1 3 mm"
    fitter.undo()
    assert value(fitter, CENTRE) == first
    fitter.workspace.redo()
    assert value(fitter, CENTRE) == first + 3
    again(fitter)
    assert fitter.workspace.undo_label == "move WC 1 3 mm"


def test_as_many_steps_as_are_kept_are_undone_over_pages_and_over_closing_the_job(fitter: Fitter, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two hundred are kept, as the tests of session and history try; fewer are undone here, where each is shown and saved."""
    most = 50
    for module in (past, session, history):
        monkeypatch.setattr(module, "MOST_STEPS", most)
    opened(fitter)
    workspace = fitter.workspace
    fitter.page("Alt+0")  # nothing is drawn again and again
    for turn in range(1, most + 21):
        workspace.set(*((WIDTH, 2000 + turn) if turn % 2 else (RATE, 30 + turn)))
    for _ in range(12):
        fitter.undo()
    again(fitter)
    fitter.page("Alt+0")
    undone = 12
    while workspace.undo_label:
        fitter.undo()
        undone += 1
    assert undone == most
    assert (get(workspace.job, WIDTH).value, get(workspace.job, RATE)) == (2019, 50)


def test_what_was_undone_is_done_again_after_the_job_was_opened_again(fitter: Fitter) -> None:
    opened(fitter)
    workspace = fitter.workspace
    first = get(workspace.job, RATE)
    for rate in (61, 62, 63):
        workspace.set(RATE, rate)
    for _ in range(3):
        fitter.undo()
    again(fitter)
    assert workspace.redo_label == "set Labour rate, £ an hour"
    workspace.redo()
    again(fitter)
    workspace.redo()
    assert get(workspace.job, RATE) == 62
    fitter.undo()
    fitter.undo()
    assert get(workspace.job, RATE) == first, "what was done again is undone as well"
    again(fitter)
    for _ in range(5):
        workspace.redo()
    assert get(workspace.job, RATE) == 63
    assert workspace.redo_label == ""
    assert workspace.undo_label == "set Labour rate, £ an hour"


def test_after_something_new_nothing_is_done_again_whenever_the_job_is_opened(fitter: Fitter) -> None:
    opened(fitter)
    workspace = fitter.workspace
    workspace.set(RATE, 61)
    fitter.undo()
    again(fitter)
    workspace.set(WIDTH, 2460)
    assert workspace.redo_label == ""
    workspace.redo()
    again(fitter)
    workspace.redo()
    assert (get(workspace.job, WIDTH).value, workspace.redo_label) == (2460, "")


def test_undoing_says_on_which_page_it_acted(fitter: Fitter) -> None:
    opened(fitter)
    said: list[str] = []
    fitter.workspace.said.connect(said.append)
    fitter.workspace.set(WIDTH, 2460)
    fitter.workspace.set(CENTRE, 400)
    fitter.workspace.set(RATE, 61)
    again(fitter)
    said.clear()
    for _ in range(3):
        fitter.undo()
    assert [words.partition(":")[0] for words in said] == ["Undone on Pricing", "Undone on Setting out", "Undone on Survey"]


def test_what_acts_on_no_one_page_names_none() -> None:
    assert where(Step("set Job number", Job(), replace(Job(), number="2"), "")) == ""
