"""Stock and the rule figures: what is changed there is reckoned with at once."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel, QWidget

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import click
from tests.desktop.spoken_names import nameless
from tundish.catalogue.own_rules import OwnRule
from tundish.desktop import theme
from tundish.desktop.chips import Chip
from tundish.desktop.look import Look
from tundish.desktop.pages.rates import RatesPage
from tundish.desktop.pages.stock import StockPage
from tundish.store.ledger import Ledger


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
    page, supplied = rates(fitter), fitter.workspace.book.figures["labour.frame"].value
    page.table.choose("labour.frame")
    page._box.setFocus()
    QTest.keyClick(page._box, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(page._box, "4")
    QTest.keyClick(page._box, Qt.Key.Key_Return)
    fitter.qtbot.waitUntil(lambda: "Hours: 28" in told(page), timeout=WAIT_MS)
    assert "Price inc. VAT: £2,905.15 → " in told(page)
    assert fitter.workspace.book.figures["labour.frame"].value == supplied
    fitter.press("Keep it", page)
    fitter.qtbot.waitUntil(lambda: fitter.settled().price.hours.value > before)
    assert fitter.workspace.book.figures["labour.frame"].changed

    fitter.press("Put back", page)
    fitter.qtbot.waitUntil(lambda: "£2,905.15, " in told(page), timeout=WAIT_MS)
    assert fitter.workspace.book.figures["labour.frame"].changed, "nothing is put back before it was seen"
    fitter.press("Leave it", page)
    assert fitter.workspace.book.figures["labour.frame"].changed
    fitter.press("Put back", page)
    fitter.qtbot.waitUntil(lambda: "£2,905.15, " in told(page), timeout=WAIT_MS)
    fitter.press("Keep it", page)
    fitter.qtbot.waitUntil(lambda: fitter.settled().price.hours.value == before)
    assert not fitter.workspace.book.figures["labour.frame"].changed


def test_what_is_not_wanted_is_left_as_it_was(fitter: Fitter) -> None:
    fitter.open("101")
    fitter.settled()
    page = rates(fitter)
    page.table.choose("labour.frame")
    QTest.keyClick(page._box, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(page._box, "4")
    QTest.keyClick(page._box, Qt.Key.Key_Return)
    fitter.press("Leave it", page)
    assert not fitter.workspace.book.figures["labour.frame"].changed
    assert "Hours" not in told(page)


def test_a_rule_of_ones_own_is_weighed_kept_changed_and_taken_out(fitter: Fitter) -> None:
    fitter.open("101")
    fitter.settled()
    page = rates(fitter)
    click(next(chip for chip in page.findChildren(Chip) if chip.text() == "My own rules"))
    card = page.own_rules
    disc = fitter.workspace.book.role("cutting disc")
    fitter._choose(card._every, "frame")
    fitter._choose(card._item, disc.name)
    QTest.keyClicks(card._allow, "2")
    QTest.keyClicks(card._called, "discs wear out")
    fitter.press("Add rule", card)
    fitter.qtbot.waitUntil(lambda: f"{disc.name}: 1 → 5" in told(card), timeout=WAIT_MS)
    assert fitter.workspace.book.own_rules == ()
    fitter.press("Keep it", card)
    fitter.qtbot.waitUntil(lambda: amount(fitter, disc.code) == 5, timeout=WAIT_MS)
    assert fitter.workspace.store.book().own_rules == fitter.workspace.book.own_rules

    card.table.choose("own:0")
    QTest.keyClick(card._allow, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(card._allow, "3 kg")
    fitter.press("Change it", card)
    assert "discs wear out: " in told(card)
    QTest.keyClick(card._allow, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(card._allow, "1")
    fitter.press("Change it", card)
    fitter.press("Keep it", card)
    fitter.qtbot.waitUntil(lambda: amount(fitter, disc.code) == 3, timeout=WAIT_MS)

    card.table.choose("own:0")
    fitter.press("Take it out", card)
    fitter.press("Keep it", card)
    fitter.qtbot.waitUntil(lambda: amount(fitter, disc.code) == 1, timeout=WAIT_MS)
    assert nameless(page) == []


def test_what_is_typed_for_a_rule_of_ones_own_waits_while_another_is_looked_at(fitter: Fitter) -> None:
    disc = fitter.workspace.book.role("cutting disc").code
    fitter.workspace.store.keep_own_rules(tuple(OwnRule(name=name, every="frame", allow="2", item=disc, stage="frames") for name in "ab"))
    fitter.workspace.book_has_changed()
    page = rates(fitter)
    click(next(chip for chip in page.findChildren(Chip) if chip.text() == "My own rules"))
    card = page.own_rules
    card.table.choose("own:0")
    QTest.keyClick(card._allow, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(card._allow, "3 kg")
    card.table.setFocus()
    card.table.choose("own:1")
    assert card._allow.text() == "2"
    card.table.choose("own:0")
    assert card._allow.text() == "3 kg"
    assert "not kept yet" in told(card)


def test_own_rules_are_given_away_and_brought_in(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = rates(fitter)
    click(next(chip for chip in page.findChildren(Chip) if chip.text() == "My own rules"))
    card, file = page.own_rules, tmp_path / "mine.json"
    rule = OwnRule(name="spare", every="room", allow="1", item=fitter.workspace.book.role("cutting disc").code)
    fitter.workspace.store.keep_own_rules((rule,))
    fitter.workspace.book_has_changed()
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(file), ""))
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(file), ""))
    fitter.press("Save as file", card)
    fitter.workspace.store.keep_own_rules(())
    fitter.workspace.book_has_changed()
    fitter.press("Bring in", card)
    assert fitter.workspace.book.own_rules == (rule,)
    file.write_text("{}", encoding="utf-8")
    fitter.press("Bring in", card)
    assert "mine.json cannot be brought in: it holds no rules. Nothing was changed." in told(card)
    assert fitter.workspace.book.own_rules == (rule,)


def amount(fitter: Fitter, code: str) -> float:
    """How much there is of an item on the open job."""
    return sum(each.amount.value for each in fitter.settled().lines if each.item.code == code)


def told(page: QWidget) -> str:
    """Everything that is said on a page."""
    return " ".join(each.text() for each in page.findChildren(QLabel) if each.isVisible())


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


def test_an_offcut_is_carried_scrapped_and_put_back(fitter: Fitter) -> None:
    page, ledger = stock(fitter), Ledger(fitter.workspace.store)
    piece = ledger.pieces()[0][0]
    page.table.row_chosen.emit(f"rack {piece.key}")
    page._acts._place.choose("lock-up")
    fitter.press("Carry there", page)
    assert places(ledger)[piece.key] == "lock-up"
    page.table.row_chosen.emit(f"rack {piece.key}")
    fitter.press("Scrap it", page)
    assert piece.key not in places(ledger)
    assert piece.key not in {each.key for each in fitter.workspace.book.rack}
    page.table.row_chosen.emit(f"move:{ledger.movements()[-1].id}")
    fitter.press("Back on the rack", page)
    assert places(ledger)[piece.key] == "lock-up"


def test_what_is_kept_for_a_job_is_let_go_and_carried(fitter: Fitter) -> None:
    page, ledger = stock(fitter), Ledger(fitter.workspace.store)
    held = ledger.on_hand()[0]
    ledger.set_aside("103", {held.item: held.amount})
    page.table.row_chosen.emit(f"{held.item}@{held.place}@103")
    fitter.press("Let it go", page)
    page.table.row_chosen.emit(f"{held.item}@{held.place}@")
    page._acts._place.choose(held.place)
    fitter.press("Carry there", page)
    assert [(each.place, each.job) for each in ledger.on_hand() if each.item == held.item] == [(held.place, "")]
    page._acts.choose(f"{held.item}@{held.place}@")
    page._acts._place.choose("site")
    fitter.press("Carry there", page)
    assert [(each.place, each.job) for each in ledger.on_hand() if each.item == held.item] == [("site", "")]


def places(ledger: Ledger) -> dict[str, str]:
    return {each.key: each.place for each, _ in ledger.pieces()}


def test_a_count_of_nonsense_is_said(fitter: Fitter) -> None:
    page = stock(fitter)
    before = dict(fitter.workspace.book.stock)
    QTest.keyClicks(page._box, "some")
    fitter.press("Counted", page)
    assert page._trouble.text()
    assert fitter.workspace.book.stock == before


def test_usual_people_are_weighed_on_the_open_job_and_kept_for_every_job(fitter: Fitter) -> None:
    fitter.open("101")
    before = fitter.settled().price
    page = rates(fitter)
    page._choose_view("people")
    card = page.people
    card._boxes["name"].setText("Tiler")
    card._boxes["rate"].setText("plenty")
    card._does["tiling"].choose("does it")
    fitter.press("Add them", card)
    assert "Charged" in told(card)
    card._boxes["rate"].setText("30")
    card._boxes["paid"].setText("26")
    fitter.press("Add them", card)
    fitter.qtbot.waitUntil(lambda: "less" in told(card), timeout=WAIT_MS)
    assert fitter.workspace.book.crew.people == (), "nothing is kept before it is wanted"
    fitter.press("Keep it", card)
    now = fitter.settled().price
    assert now.before_vat < before.before_vat
    assert now.break_even > before.break_even
    (tiler,) = fitter.workspace.store.book().crew.people
    assert (tiler.name, tiler.rate, tiler.does("tiling")) == ("Tiler", Decimal(30), "does it")
    card.table.choose("0")
    card._boxes["rate"].setText("35")
    card._own_way.choose("yes")
    fitter.press("Change it", card)
    fitter.press("Keep it", card)
    (tiler,) = fitter.workspace.store.book().crew.people
    assert (tiler.rate, tiler.own_way) == (Decimal(35), True)
    fitter.press("Take them out", card)
    fitter.press("Keep it", card)
    assert fitter.settled().price.total == before.total


def test_a_usual_rate_of_ones_own_prices_jobs_that_have_none(fitter: Fitter) -> None:
    fitter.open("101")
    fitter.settled()
    fitter.workspace.set("terms.labour_rate", None)
    assert not fitter.settled().price.labour_priced
    page = rates(fitter)
    page._choose_view("people")
    page.people.table.choose("you")
    page.people._boxes["rate"].setText("£41.50")
    fitter.press("Change it", page.people)
    fitter.press("Keep it", page.people)
    price = fitter.settled().price
    assert price.labour_priced
    assert {each.rate for stage in price.stages for each in stage.people} == {Decimal("41.50")}
    fitter.press("Add them", page.people)
    assert "Type a name" in told(page.people)


def test_fields_of_a_person_scroll_at_large_text_and_take_no_more_than_they_need(fitter: Fitter, qapp: QApplication) -> None:
    fitter.window.resize(1366, 698)
    page = rates(fitter)
    page._choose_view("people")
    fields = page.people._fields
    fitter.qtbot.waitUntil(lambda: fields.verticalScrollBar().maximum() == 0 and fields.height() < 160, timeout=WAIT_MS)
    theme.apply(qapp, Look(percent=150))
    page.people.table.choose("you")
    fitter.qtbot.waitUntil(lambda: fields.height() <= fields.maximumHeight() and page.people._add.isVisible(), timeout=WAIT_MS)
    last = page.people._does["making_good"]
    last.setFocus()
    fitter.qtbot.waitUntil(lambda: not last.visibleRegion().isEmpty(), timeout=WAIT_MS)


def test_every_control_has_a_name(fitter: Fitter) -> None:
    fitter.open("101")
    fitter.settled()
    assert nameless(stock(fitter)) == []
    assert nameless(rates(fitter)) == []
