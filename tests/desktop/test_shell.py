"""The window joined to the workspace."""

from __future__ import annotations

import pytest

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
