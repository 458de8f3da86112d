"""Records on Pricing by what a fitter does: bills, credit notes and variations are made once, and their numbers never given twice."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QLabel, QPushButton

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.store.a_bill import bill
from tundish import measure
from tundish.desktop.pages.pricing import PricingPage
from tundish.pricing.invoice import bill_of
from tundish.store.orders import Orders
from tundish.store.papers import Paper

WARE = "rooms.0.design.appliances"


def opened(fitter: Fitter) -> PricingPage:
    fitter.open("102")
    fitter.settled()
    page = fitter.page("Alt+7")
    assert isinstance(page, PricingPage)
    return page


def said(page: PricingPage) -> str:
    return "\n".join(each.text() for each in page.findChildren(QLabel) if each.isVisible())


def test_a_number_that_was_undone_is_not_given_again_and_a_bill_that_went_out_is_not_undone(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(fitter)
    fitter.press("Make the next bill", page)
    fitter.settled()
    fitter.undo()
    fitter.settled()
    assert not fitter.workspace.job.invoices
    fitter.qtbot.waitUntil(lambda: "102-1 is not given again. Invoice, With your acceptance" in said(page), timeout=WAIT_MS)
    fitter.press("Make the next bill", page)
    fitter.settled()
    assert [each.number for each in fitter.workspace.job.invoices] == ["102-2"]
    target = tmp_path / "bill.xml"
    words: list[str] = []
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_named: (str(target), ""))
    fitter.press("XML", page)
    fitter.workspace.said.connect(words.append)
    fitter.undo()
    fitter.workspace.said.disconnect(words.append)
    assert [each.number for each in fitter.workspace.job.invoices] == ["102-2"]
    assert words == ["Invoice 102-2 went out, so it is not undone: take it back by a credit note on Pricing."]


def test_a_press_that_is_made_twice_makes_one_bill(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.settled()
    (make,) = [each for each in page.findChildren(QPushButton) if each.text() == "Make the next bill"]
    QTest.mouseClick(make, Qt.MouseButton.LeftButton)
    QTest.mouseDClick(make, Qt.MouseButton.LeftButton)
    QTest.mouseClick(make, Qt.MouseButton.LeftButton)
    assert len(fitter.workspace.job.invoices) == 1
    fitter.settled()
    (make,) = [each for each in page.findChildren(QPushButton) if each.text() == "Make the next bill" and each.isVisible()]
    QTest.mouseDClick(make, Qt.MouseButton.LeftButton)
    assert len(fitter.workspace.job.invoices) == 1, "the second press of a pair, on the button that came in its place"


def test_a_bill_is_taken_back_once_and_a_variation_answered_once(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Make the next bill", page)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "Invoice 102-1" in said(page), timeout=WAIT_MS)
    (back,) = [each for each in page.findChildren(QPushButton) if each.text() == "Take it back" and each.isVisible()]
    for _ in range(2):
        back.click()
    assert [each.number for each in fitter.workspace.job.invoices] == ["102-1", "102-2"]
    fitter.settled()
    fitter.press(f"The client has accepted {measure.show_money(fitter.settled().price.total)}", page)
    fitter.settled()
    fitter.workspace.remove("rooms.0.design.appliances", 1, "take out Bidet 1")
    fitter.settled()
    fitter.press("Work out what has changed", page)
    fitter.press("Make it a variation", page)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "not answered yet" in said(page), timeout=WAIT_MS)
    acts = {each.text(): each for each in page.findChildren(QPushButton) if each.isVisible()}
    acts["Accepted today"].click()
    acts["Withdraw it"].click()
    (made,) = fitter.workspace.job.variations
    assert (bool(made.accepted), made.withdrawn) == (True, "")


def test_a_bill_made_while_an_option_is_open_is_of_the_job_as_agreed_and_no_part_of_the_option(fitter: Fitter) -> None:
    page = opened(fitter)
    total = fitter.settled().price.total
    fitter.press(f"The client has accepted {measure.show_money(total)}", page)
    fitter.settled()
    fitter.press("Begin an option", page)
    fitter.settled()
    fitter.workspace.remove(WARE, 1, "take out Bidet 1")
    fitter.settled()
    for _ in range(3):
        fitter.press("Make the next bill", page)
        fitter.settled()
    fitter.press("Keep it as an option", page)
    fitter.settled()
    job = fitter.workspace.job
    assert [each.path for each in job.options[0].changes] == [f"{WARE}.1"]
    assert len(job.invoices) == 3
    assert sum(bill_of(each).total for each in job.invoices) == total
    fitter.undo()
    assert fitter.workspace.job.begun.on, "still being made, as before it was kept"
    fitter.press("Drop it", page)
    fitter.settled()
    assert (fitter.workspace.job.options, len(fitter.workspace.job.invoices)) == ((), 3)
    assert len(fitter.workspace.job.rooms[0].design.appliances) == 3


def test_nothing_is_issued_accepted_or_ordered_of_an_option_that_is_being_made(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Begin an option", page)
    fitter.settled()
    held_up = "An option is being made: keep it or drop it on Pricing first."
    fitter.qtbot.waitUntil(lambda: said(page).count(held_up) == 2, timeout=WAIT_MS)
    shown = [each.text() for each in page.findChildren(QPushButton) if each.isVisible()]
    assert not [words for words in shown if words.startswith("The client has accepted") or words == "Make the next bill"]
    words: list[str] = []
    fitter.workspace.said.connect(words.append)
    papers = fitter.page("Alt+8")
    fitter.qtbot.waitUntil(lambda: not fitter.workspace.aside.busy, timeout=WAIT_MS)
    fitter.press("Save PDF", papers)
    fitter.page("Alt+6")
    fitter.press("Send order")
    fitter.workspace.said.disconnect(words.append)
    assert words == [held_up] * 2
    assert Orders(fitter.workspace.store).all() == ()


def test_an_option_that_is_being_made_is_still_so_when_the_job_is_opened_again(fitter: Fitter) -> None:
    page = opened(fitter)
    before = fitter.workspace.job
    fitter.press("Begin an option", page)
    fitter.workspace.remove(WARE, 1, "take out Bidet 1")
    fitter.settled()
    fitter.open("101")
    fitter.settled()
    words: list[str] = []
    fitter.workspace.said.connect(words.append)
    page = opened(fitter)
    fitter.workspace.said.disconnect(words.append)
    assert "An option is being made: keep it or drop it on Pricing first." in words
    fitter.press("Keep it as an option", page)
    worked = fitter.settled()
    assert replace(worked.job, options=()) == before
    assert worked.options[0].changes == ("without Bidet 1",)


def test_an_option_follows_when_an_appliance_is_taken_out(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Begin an option", page)
    assert fitter.workspace.set(f"{WARE}.2.top", 880) == ()
    fitter.press("Keep it as an option", page)
    fitter.settled()
    fitter.workspace.remove(WARE, 1, "take out Bidet 1")
    (option,) = fitter.settled().job.options
    assert [each.path for each in option.changes] == [f"{WARE}.1.top"]


def test_a_quote_does_not_go_out_under_a_number_that_another_job_went_out_under(fitter: Fitter) -> None:
    store = fitter.workspace.store
    store.issue(store.find("101") or 0, Paper("quote", "Quote 101", "pdf", 1, "2026-12-01T10:00:00", "words", b""), "101")
    opened(fitter)
    fitter.workspace.set("number", "101")
    fitter.settled()
    papers = fitter.page("Alt+8")
    fitter.qtbot.waitUntil(lambda: not fitter.workspace.aside.busy, timeout=WAIT_MS)
    words: list[str] = []
    fitter.workspace.said.connect(words.append)
    fitter.press("Save PDF", papers)
    fitter.workspace.said.disconnect(words.append)
    assert words[-1] == "A quote 101 went out for another job: give this job a number of its own, then print it again."
    assert fitter.workspace.quotes == ()


def test_a_merchants_bill_as_xml_is_looked_at_on_ordering(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    opened(fitter)
    page = fitter.page("Alt+6")
    file = tmp_path / "bill.xml"
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_args, **_named: (str(file), ""))
    words: list[str] = []
    fitter.workspace.said.connect(words.append)
    file.write_text(bill("PO-9").replace(">57.20<", ">58.20<"), encoding="utf-8")
    fitter.press("Open XML", page)
    assert words[-1] == "Invoice M-7731 from Carrowdene, £50.00 to pay"
    told = "\n".join(each.text() for each in page.findChildren(QLabel) if each.isVisible())
    assert "with VAT it says £58.20, and comes to £57.20 (BR-CO-15)" in told
    assert "it is for order PO-9, which none of yours is" in told
    file.write_text("<!DOCTYPE x><x/>", encoding="utf-8")
    fitter.press("Open XML", page)
    fitter.workspace.said.disconnect(words.append)
    told = "\n".join(each.text() for each in page.findChildren(QLabel) if each.isVisible())
    assert "declares a document type" in told
