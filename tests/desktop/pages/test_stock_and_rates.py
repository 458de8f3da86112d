"""Stock and the rule figures: what is changed there is reckoned with at once."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.desktop.fitter import Fitter
from tests.desktop.spoken_names import nameless
from tundish.desktop.pages.rates import RatesPage
from tundish.desktop.pages.stock import StockPage


def rates(fitter: Fitter) -> RatesPage:
    fitter.window.show_page("rates")
    page = fitter.window.page("rates")
    assert isinstance(page, RatesPage)
    return page


def stock(fitter: Fitter) -> StockPage:
    fitter.window.show_page("stock")
    page = fitter.window.page("stock")
    assert isinstance(page, StockPage)
    return page


def test_a_norm_of_ones_own_changes_the_hours_and_can_be_put_back(fitter: Fitter) -> None:
    fitter.open("101")
    before = fitter.settled().price.hours.value
    page = rates(fitter)
    page.table.choose("labour.frame")
    page._box.setFocus()
    QTest.keyClick(page._box, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(page._box, "4")
    QTest.keyClick(page._box, Qt.Key.Key_Return)
    fitter.qtbot.waitUntil(lambda: fitter.settled().price.hours.value > before)
    assert fitter.workspace.book.figures["labour.frame"].changed

    fitter.press("Put back", page)
    fitter.qtbot.waitUntil(lambda: fitter.settled().price.hours.value == before)
    assert not fitter.workspace.book.figures["labour.frame"].changed


def test_a_value_that_is_none_is_said_and_changes_nothing(fitter: Fitter) -> None:
    fitter.open("101")
    fitter.settled()
    page = rates(fitter)
    page.table.choose("labour.frame")
    QTest.keyClick(page._box, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(page._box, "lots")
    QTest.keyClick(page._box, Qt.Key.Key_Return)
    assert page._trouble.text()
    assert not fitter.workspace.book.figures["labour.frame"].changed


def test_what_is_counted_is_on_hand(fitter: Fitter) -> None:
    page = stock(fitter)
    code = page._codes[0]
    had = fitter.workspace.book.stock.get(code, 0.0)
    QTest.keyClicks(page._box, f"{had + 3:g}")
    fitter.press("Counted", page)
    assert fitter.workspace.book.stock[code] == had + 3


def test_a_count_of_nonsense_is_said(fitter: Fitter) -> None:
    page = stock(fitter)
    before = dict(fitter.workspace.book.stock)
    QTest.keyClicks(page._box, "some")
    fitter.press("Counted", page)
    assert page._trouble.text()
    assert fitter.workspace.book.stock == before


def test_every_control_has_a_name(fitter: Fitter) -> None:
    fitter.open("101")
    fitter.settled()
    assert nameless(stock(fitter)) == []
    assert nameless(rates(fitter)) == []
