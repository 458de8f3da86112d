"""After the job: hours and amounts are said, the job is finished, and norms are taken over from finished jobs."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.spoken_names import nameless
from tundish import measure
from tundish.catalogue.crew import Person
from tundish.desktop.boxes import Box
from tundish.desktop.cells import Row
from tundish.desktop.pages.after import HOURS, NORMS, AfterPage
from tundish.desktop.receipt_rows import LineRow
from tundish.desktop.standing import unsettled
from tundish.desktop.suggested_norms import SuggestedNorms
from tundish.desktop.tables import Table
from tundish.estimate import estimate
from tundish.field import Entry
from tundish.figure import Known
from tundish.pricing import took
from tundish.pricing.norms import norms_of, unrounded
from tundish.pricing.took import After, TookHours
from tundish.store.keep import demo_jobs

FRAMES = "took:frames"


@pytest.fixture
def page(fitter: Fitter) -> AfterPage:
    fitter.open("102")
    fitter.settled()
    closing = fitter.page("Alt+9")
    fitter.press("After the job", closing)
    shown = fitter.window.frame.pages.currentWidget()
    assert isinstance(shown, AfterPage)
    return shown


def cells(table: Table, key: str) -> list[str]:
    found = table.table_model.entry(table.table_model.place(key))
    assert isinstance(found, Row)
    return [each.text for each in found.cells]


def write(box: Box, words: str) -> None:
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClick(box, Qt.Key.Key_Delete)
    QTest.keyClicks(box, words)


def say(fitter: Fitter, page: AfterPage, who: str, hours: str, stage: str = FRAMES) -> None:
    page.stages.choose(stage)
    write(page.hours.who, who)
    write(page.hours.hours, hours)
    fitter.press("Record it", page)
    fitter.settled()


def said(norms: SuggestedNorms) -> str:
    """What is shown of a change before it is kept."""
    return " ".join(each.text() for each in norms.weighing.findChildren(QLabel) if each.isVisible())


def three_finished(fitter: Fitter) -> None:
    """Three jobs whose frames took 1.1, 1.25 and 3 times as long as estimated."""
    store = fitter.workspace.store
    for place, ratio in enumerate((1.1, 1.25, 3.0)):
        job = replace(demo_jobs()[place], number=f"30{place}", demo="")
        made = estimate(job, store.book())
        hours = next(unrounded(each.hours).value for each in made.price.stages if each.stage == "frames")
        after = After(hours=(TookHours(stage="frames", hours=Entry(ratio * hours, Known.TYPED)),))
        store.add(replace(job, after=took.finished(after, made.price.stages, made.lines, store.book().figures, "2026-11-20")))


def test_hours_of_two_stand_beside_the_estimate_and_are_kept(fitter: Fitter, page: AfterPage) -> None:
    say(fitter, page, "M. Tarrowby", "9.5")
    say(fitter, page, "S. Oakley", "2.25")
    _, estimated, took_, more, times = cells(page.stages, FRAMES)
    assert (estimated, took_, more, times) == ("6.96", "11.75", "+4.79", "× 1.69")
    assert [(each.who, each.hours and each.hours.value) for each in fitter.workspace.job.after.hours] == [
        ("M. Tarrowby", 9.5),
        ("S. Oakley", 2.25),
    ]
    opened, _ = fitter.workspace.store.open(fitter.workspace.job_id)
    assert opened.job is not None
    assert opened.job.after == fitter.workspace.job.after
    fitter.undo()
    fitter.settled()
    assert cells(page.stages, FRAMES)[2] == "9.50"


def test_what_is_not_said_is_not_nothing_and_a_range_is_to_be_confirmed(fitter: Fitter, page: AfterPage) -> None:
    assert cells(page.stages, FRAMES)[2:] == ["–", "–", "–"]
    say(fitter, page, "M. Tarrowby", "TBC")
    assert cells(page.stages, FRAMES)[2] == "TBC"
    before = set(unsettled(fitter.workspace.job))
    say(fitter, page, "M. Tarrowby", "6 to 8")
    assert cells(page.stages, FRAMES)[2] == "7.00"
    assert set(unsettled(fitter.workspace.job)) == before
    fitter.press("Take out", page)
    fitter.settled()
    assert fitter.workspace.job.after == After()


def test_who_helps_by_the_price_is_taken_to_have_helped(fitter: Fitter, page: AfterPage) -> None:
    fitter.workspace.add("terms.people", Person(name="Mate", frames="helps"), "add a mate")
    fitter.settled()
    say(fitter, page, "M. Tarrowby", "9")
    page.stages.choose(FRAMES)
    write(page.hours.who, "mate")
    QTest.keyClick(page.hours.who, Qt.Key.Key_Return)
    assert page.hours.helped.isChecked()
    write(page.hours.hours, "9")
    fitter.press("Record it", page)
    fitter.settled()
    assert cells(page.stages, FRAMES)[2] == "9.00"
    assert [each.helped for each in fitter.workspace.job.after.hours] == [False, True]


def test_words_that_are_no_hours_are_refused_and_kept_for_mending(fitter: Fitter, page: AfterPage) -> None:
    say(fitter, page, "M. Tarrowby", "long")
    assert fitter.workspace.job.after == After()
    assert page.hours.hours.text() == "long"
    say(fitter, page, "M. Tarrowby", "9999")
    assert fitter.workspace.job.after == After()


def test_a_row_shows_where_its_figures_are_from(fitter: Fitter, page: AfterPage) -> None:
    say(fitter, page, "M. Tarrowby", "9.5")
    column = fitter.window.where_from
    lines = [each.accessibleName() for each in column.findChildren(LineRow) if each.isVisible()]
    assert any("Took" in each and "9.5" in each for each in lines)
    assert any("Estimated" in each and "6.96" in each for each in lines)
    fitter.window.where_from.link_asked.emit("took:frames/0/0")
    fitter.press("Change it", column)
    assert fitter.window.current == "after"
    assert page.stages.chosen() == FRAMES


def test_amounts_are_said_in_the_unit_of_the_line(fitter: Fitter, page: AfterPage) -> None:
    page._show_view("amounts")
    line = next(each for each in fitter.settled().lines if each.amount.unit == "each")
    page.lines.choose(f"took:{line.item.code}")
    write(page.amount.took, str(round(line.amount.value) + 2))
    fitter.press("Record it", page)
    fitter.settled()
    assert cells(page.lines, f"took:{line.item.code}")[-1] == "+2"
    page.lines.choose(f"took:{line.item.code}")
    write(page.amount.took, "")
    fitter.press("Record it", page)
    fitter.settled()
    assert fitter.workspace.job.after == After()


def test_finished_keeps_the_estimate_and_can_be_taken_back(fitter: Fitter, page: AfterPage) -> None:
    say(fitter, page, "M. Tarrowby", "9.5")
    fitter.press("Finished", page)
    fitter.settled()
    after = fitter.workspace.job.after
    assert after.finished
    assert {each.norm for each in after.by_norm if each.stage == "frames"} == {"labour.frame", "labour.prewall_m"}
    fitter.workspace.store.overrule("labour.frame", 9)
    fitter.workspace.book_has_changed()
    fitter.settled()
    assert cells(page.stages, FRAMES)[1] == "6.96"
    fitter.press("Not finished after all", page)
    fitter.settled()
    assert cells(page.stages, FRAMES)[1] != "6.96"
    assert fitter.workspace.job.after.hours == after.hours


def test_norms_are_weighed_taken_over_once_named_and_put_back(fitter: Fitter, page: AfterPage) -> None:
    three_finished(fitter)
    page._show_view(NORMS)
    norms = page.norms
    assert cells(norms.table, "norm:frames")[1:] == ["3", "× 1.10 to × 3.00", "× 1.25", "As supplied"]
    assert cells(norms.table, "norm:boarding")[1:4] == ["0", "–", "–"]
    norms.table.choose("norm:frames")
    before = {key: each.value for key, each in fitter.workspace.book.figures.items()}
    fitter.press("Take over", norms)
    assert {key: each.value for key, each in fitter.workspace.book.figures.items()} == before
    fitter.press("Keep it", norms)
    fitter.settled()
    frames = norms_of("frames", fitter.workspace.book.figures)
    assert all(each.value == pytest.approx(1.25 * each.supplied, abs=1e-3) for each in frames)
    assert {each.changed_words.rpartition(", ")[2] for each in frames} == {"from 3 jobs"}
    assert cells(norms.table, "norm:frames")[3:] == ["as they are", f"Changed {measure.show_date(date.today().isoformat())}"]
    assert not norms.take.isEnabled()
    taken = {key: each.value for key, each in fitter.workspace.book.figures.items()}
    fitter.press("Put back", norms)
    fitter.qtbot.waitUntil(lambda: "Hours: " in said(norms) and "Price inc. VAT: " in said(norms), timeout=WAIT_MS)
    fitter.press("Leave it", norms)
    assert {key: each.value for key, each in fitter.workspace.book.figures.items()} == taken
    fitter.press("Put back", norms)
    fitter.press("Keep it", norms)
    fitter.settled()
    assert {key: each.value for key, each in fitter.workspace.book.figures.items()} == before


def test_a_copy_of_a_job_has_taken_nothing_yet(fitter: Fitter, page: AfterPage) -> None:
    say(fitter, page, "M. Tarrowby", "9.5")
    fitter.press("Finished", page)
    fitter.settled()
    jobs = fitter.page("Alt+0")
    fitter.window.page("jobs").table.choose(str(fitter.workspace.job_id))  # type: ignore[union-attr]
    fitter.press("Copy", jobs)
    fitter.settled()
    assert fitter.workspace.job.after == After()


def test_everything_on_it_has_a_name(fitter: Fitter, page: AfterPage) -> None:
    for view in (HOURS, "amounts", NORMS):
        page._show_view(view)
        assert nameless(page) == []
    assert fitter.window.current == "after"
