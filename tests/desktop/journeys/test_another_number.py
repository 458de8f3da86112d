"""A job that has been ordered, issued and photographed is given another number: all of it stays with the job."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.desktop.fitter import WAIT_MS, Fitter
from tundish.desktop.pages.jobs import JobsPage
from tundish.desktop.pages.ordering import OrderingPage
from tundish.desktop.pages.survey import SurveyPage
from tundish.store.ledger import GOODS_IN, Ledger
from tundish.store.papers import Paper


def ordering(fitter: Fitter) -> OrderingPage:
    page = fitter.page("Alt+6")
    assert isinstance(page, OrderingPage)
    work = fitter.workspace
    fitter.qtbot.waitUntil(lambda: work.estimate is not None and bool(work.estimate.buying.reason), timeout=WAIT_MS)
    fitter.settled()
    return page


def sent_rows(page: OrderingPage) -> list[str]:
    """The lines of the orders that went out, as the page has them."""
    model = page.table.table_model
    entries = [model.entry(place).id for place in range(model.rowCount())]
    return [each for each in entries if each.startswith("order:")]


def renumbered(fitter: Fitter, number: str) -> None:
    page = fitter.page("Alt+1")
    assert isinstance(page, SurveyPage)
    page.go_to("number")
    fitter.type_into(page.form.row("number"), number)
    fitter.settled()


def test_a_job_keeps_what_was_ordered_and_kept_for_it_under_another_number(fitter: Fitter) -> None:
    work = fitter.workspace
    other = work.store.find("101")
    fitter.open("102")
    needed = next(each.line for each in fitter.settled().buying.purchases if not each.from_stock.value and not each.line.cuts)
    Ledger(work.store).move(needed.item.code, needed.needed, GOODS_IN)
    work.book_has_changed()
    page = ordering(fitter)
    fitter.press("Send order", page)
    work.issue(work.job_id, Paper("quote", "Quote 102", "pdf", 1, "2026-12-01T10:00:00", "words", b""), "102")
    page = ordering(fitter)
    before, stock, price, papers = sent_rows(page), dict(work.book.stock), fitter.price(), work.store.issued(work.job_id)
    assert before
    assert any(each.job == "102" for each in Ledger(work.store).on_hand())
    renumbered(fitter, "350")
    page = ordering(fitter)
    assert (sent_rows(page), dict(work.book.stock), fitter.price()) == (before, stock, price)
    assert work.store.issued(work.job_id) == papers
    assert {each.job for each in Ledger(work.store).on_hand() if each.job} == {"350"}
    renumbered(fitter, "101")
    assert sent_rows(ordering(fitter)) == before, "with the number of another job it still has its own"
    jobs = fitter.page("Alt+0")
    assert isinstance(jobs, JobsPage)
    jobs.table.choose(str(other))
    QTest.keyClick(jobs.table, Qt.Key.Key_Return)
    fitter.settled()
    assert work.job_id == other
    assert sent_rows(ordering(fitter)) == [], "and the other has none of them"
