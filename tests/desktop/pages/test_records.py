"""Records on Pricing by what a fitter does: bills, credit notes and variations are made once, and their numbers never given twice."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QLabel, QPushButton

from tests.desktop.fitter import WAIT_MS, Fitter
from tundish import measure
from tundish.desktop.pages.pricing import PricingPage


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
