"""On the wall no words lie on others, however many appliances it has and however large the words are."""

from __future__ import annotations

from itertools import combinations

import pytest
from PySide6.QtWidgets import QApplication

from tests.desktop.fitter import Fitter
from tests.jobs.crowded import LONG, seven
from tundish.desktop import theme
from tundish.desktop.canvas.painting import dimension_box, words_box
from tundish.desktop.look import Look
from tundish.desktop.pages.setting_out import SettingOutPage
from tundish.documents.drawing import Box, Dimension, Words
from tundish.estimate import Job
from tundish.store.keep import demo_jobs

ROOMS = {"3.2 m": lambda: seven(3200), "4.6 m": lambda: seven(4600), "9 m": lambda: seven(9000), "names": lambda: seven(4600, LONG)} | {
    job.number: (lambda job=job: job) for job in demo_jobs()
}
SHARED = 1.0
"""Square pixels that two boxes of words may share: what rounding leaves."""


def overlaps(page: SettingOutPage) -> list[tuple[str, str, float]]:
    """The words of the drawing that share pixels with others, and how many."""
    placed, found = page.view.placed(), []
    marks = [mark for mark in page.view.drawing().marks if isinstance(mark, Words | Dimension)]
    boxes = [(mark, words_box(mark, placed) if isinstance(mark, Words) else dimension_box(mark, placed)) for mark in marks]
    for (one, first), (other, second) in combinations(boxes, 2):
        both = first.intersected(second)
        if both.width() * both.height() > SHARED:
            found.append((one.text, other.text, both.width() * both.height()))
    return found


def shown(fitter: Fitter, qapp: QApplication, job: Job, percent: int) -> SettingOutPage:
    theme.apply(qapp, Look(percent=percent))
    fitter.window.resize(1366, 698)
    fitter.open("102")
    fitter.workspace.edit("fill the wall", job)
    fitter.settled()
    page = fitter.page("Alt+2")
    assert isinstance(page, SettingOutPage)
    QApplication.processEvents()
    return page


@pytest.mark.parametrize("percent", [100, 150])
@pytest.mark.parametrize("name", ROOMS)
def test_no_words_lie_on_others(fitter: Fitter, qapp: QApplication, name: str, percent: int) -> None:
    page = shown(fitter, qapp, ROOMS[name](), percent)
    assert overlaps(page) == []
    page.tools.whole.setChecked(True)
    assert overlaps(page) == []
    page.tools.whole.setChecked(False)
    for _ in range(3):
        page.view.zoom(1.25)
    assert overlaps(page) == []


@pytest.mark.parametrize("percent", [100, 150])
def test_the_datum_is_written_off_the_flush_plates_and_figures_off_the_floor(fitter: Fitter, qapp: QApplication, percent: int) -> None:
    page = shown(fitter, qapp, seven(9000), percent)
    placed, marks = page.view.placed(), page.view.drawing().marks
    datum = next(words_box(mark, placed) for mark in marks if isinstance(mark, Words) and mark.figure == "datum")
    plates = [placed.box(mark.x, mark.y, mark.width, mark.height) for mark in marks if isinstance(mark, Box) and mark.style == "ware"]
    assert plates
    assert not any(datum.intersects(plate) for plate in plates)
    floor = placed.point(0, 0).y()
    along = [dimension_box(mark, placed) for mark in marks if isinstance(mark, Dimension) and mark.figure.endswith("centre")]
    assert along
    assert all(box.top() > floor for box in along)
