"""The window joined to the workspace."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QLabel

from tests.desktop.fitter import Fitter
from tests.desktop.journeys.conftest import fitter
from tundish.desktop.shell import JOB_PAGES

__all__ = ["fitter"]


@pytest.mark.parametrize("key", sorted(JOB_PAGES))
def test_with_no_job_open_the_pages_of_one_lead_to_the_jobs(key: str, fitter: Fitter) -> None:
    said: list[str] = []
    fitter.workspace.said.connect(said.append)
    fitter.window.show_page(key)
    assert fitter.window.current == "jobs"
    assert fitter.window.frame.pages.currentWidget() is fitter.window.page("jobs")
    assert said == ["Open a job, or start a survey, first."]


@pytest.mark.parametrize("key", ["stock", "rates", "settings"])
def test_the_pages_outside_a_job_open_without_one(key: str, fitter: Fitter) -> None:
    fitter.window.show_page(key)
    assert fitter.window.current == key


def test_coming_to_a_page_where_from_tells_of_the_box_that_has_the_keyboard(fitter: Fitter) -> None:
    fitter.open("102")
    for keys in ("Alt+1", "Alt+2", "Alt+1"):
        fitter.page(keys)
    fitter.settled()
    said = [each.text() for each in fitter.window.where_from.findChildren(QLabel) if each.isVisible()]
    assert "Width along wall A" in said
